"""One command a paper:  python -m linelib.papers form out.pdf | report case.json out.html | bulletin case.json out.pdf"""

from __future__ import annotations

import sys
from collections.abc import Sequence

from linelib.papers import bulletin, evidence_form, open_case, report

PAPERS = {"report": report, "bulletin": bulletin}


def main(words: Sequence[str]) -> str:
    """Write one paper; returns what to say.

    Raises: ValueError when the case or the name of the paper is refused; OSError when a file cannot be read or written.
    """
    if len(words) == 2 and words[0] == "form":
        evidence_form().save(words[1])
    elif len(words) == 3 and words[0] in PAPERS:
        PAPERS[words[0]](case=open_case(path=words[1])).save(words[2])
    else:
        raise ValueError(__doc__)
    return f"written: {words[-1]}"


if __name__ == "__main__":
    try:
        print(main(sys.argv[1:]))
    except (ValueError, OSError) as error:
        sys.exit(str(error))
