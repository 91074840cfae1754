"""What stands at the top level is fixed; no file names a place on one machine; the README carries the caution."""

from __future__ import annotations

from tests.house.repository import MACHINE_PATH, ROOT, files, text

VISIBLE = {"README.md", "DEVELOPERS.md", "requirements.txt", "notebooks", "linelib", "tests", "data", "LICENSE"}


def test_visible_top_level_is_fixed() -> None:
    names = {name.split("/")[0] for name in files()}
    assert {name for name in names if not name.startswith(".")} == VISIBLE


def test_no_file_names_a_place_on_one_machine() -> None:
    machine = "/" + "tmp" + "/x"
    assert MACHINE_PATH.search(machine)
    # the patterns themselves stand in repository.py and are not a path
    outside = [name for name in files() if not name.startswith(".ci/") and name != "tests/house/repository.py"]
    found = {name: match[0] for name in outside if (match := MACHINE_PATH.search(text(name) or ""))}
    assert found == {}


def test_readme_carries_the_caution() -> None:
    from linelib.cautions import CAUTION

    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert len(CAUTION) > 20
    assert " ".join(CAUTION.split()) in " ".join(readme.split())
