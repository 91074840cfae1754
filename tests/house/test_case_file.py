"""Case files: what is opened is what was saved; a wrong file is refused by the path of the key."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linelib.papers import Assumption, Evidence, open_case, save_case
from linelib.papers.case_parts import BELIEVED, KINDS
from tests.invented_case import invented_case


@pytest.fixture
def saved(tmp_path):
    path = tmp_path / "case.json"
    save_case(case=invented_case(), path=path)
    return path


def changed(path, change) -> None:
    content = json.loads(path.read_text(encoding="utf-8"))
    change(content)
    path.write_text(json.dumps(content), encoding="utf-8")


def test_opened_is_what_was_saved(saved, tmp_path) -> None:
    case = open_case(path=saved)
    assert case == invented_case()
    again = tmp_path / "again.json"
    save_case(case=case, path=again)
    assert again.read_bytes() == saved.read_bytes()


letters = st.text(min_size=1, max_size=20).filter(
    lambda text: text.strip() and all(32 <= ord(c) < 127 or ord(c) > 160 for c in text)
)


@given(
    words=letters.filter(lambda text: not any(0xD800 <= ord(c) < 0xE000 for c in text)),
    kind=st.sampled_from(KINDS),
    believed=st.sampled_from(BELIEVED),
    ends=st.tuples(st.floats(-1e12, 1e12), st.floats(-1e12, 1e12)).map(sorted),
    invented=st.booleans(),
    seed=st.none() | st.integers(0, 10**30),
)
def test_every_case_comes_back(tmp_path_factory, words, kind, believed, ends, invented, seed) -> None:
    path = tmp_path_factory.getbasetemp() / "any.json"
    case = invented_case(
        evidence=(Evidence(kind=kind, words=words, believed=believed),),
        assumptions=(Assumption(name="x", low=ends[0], high=ends[1], unit="", why="y"),),
        not_known=(words,),
        invented=invented,
        seed=seed,
        computed=(),
        setups=(),
    )
    save_case(case=case, path=path)
    assert open_case(path=path) == case


def every_key(content, path=()):
    """The place of every key of the case itself: not inside the rig files, which have tests of their own."""
    inside = content.items() if isinstance(content, dict) else enumerate(content) if isinstance(content, list) else ()
    for key, value in inside:
        if isinstance(content, dict):
            yield (*path, key)
        if key != "setup":
            yield from every_key(value, (*path, key))


def test_every_missing_key_is_named(saved) -> None:
    text = saved.read_text(encoding="utf-8")
    places = list(every_key(json.loads(text)))
    assert len(places) > 70
    for *outer, last in places:
        content = inner = json.loads(text)
        for step in outer:
            inner = inner[step]
        del inner[last]
        saved.write_text(json.dumps(content), encoding="utf-8")
        path = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in (*outer, last))[1:]
        with pytest.raises(ValueError, match="is missing; allowed: ") as refusal:
            open_case(path=saved)
        assert str(refusal.value).startswith(f"{path} is missing")


WRONG = {
    "evidence[2].kind = 'heard'": lambda c: c["evidence"][2].update(kind="heard"),
    "evidence[1] = 'told'": lambda c: c["evidence"].__setitem__(1, "told"),
    "evidence = 'told'": lambda c: c.update(evidence="told"),
    "not_known = ()": lambda c: c.update(not_known=[]),
    "not_known[0] = 3": lambda c: c.update(not_known=[3]),
    "changes[0].cost = ''": lambda c: c["changes"][0].update(cost=""),
    "assumptions[0].low = 'two'": lambda c: c["assumptions"][0].update(low="two"),
    "computed[1].picture = 'x'": lambda c: c["computed"][1].update(picture="x"),
    "computed[1].picture = b'abc'": lambda c: c["computed"][1].update(picture="YWJj"),
    "setups[0].setup: rig.span_m = -1.0": lambda c: c["setups"][0]["setup"]["rig"].update(span_m=-1),
    "causes[0].rank = 1.5": lambda c: c["causes"][0].update(rank=1.5),
    "version = 2": lambda c: c.update(version=2),
    "seed = True": lambda c: c.update(seed=True),
    "order[0].who is not a known key": lambda c: c["order"][0].update(who="x"),
}


@pytest.mark.parametrize("start", WRONG)
def test_what_is_wrong_is_refused_by_its_path(saved, start) -> None:
    changed(saved, WRONG[start])
    with pytest.raises(ValueError, match="allowed: ") as refusal:
        open_case(path=saved)
    assert str(refusal.value).startswith(start)


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b"\xff\xfe", b"[" * 100_000], ids=range(5))
def test_a_file_that_is_no_case_is_refused_by_its_name(saved, content) -> None:
    saved.write_bytes(content)
    with pytest.raises(ValueError, match=r"case\.json = .* allowed: "):
        open_case(path=saved)


def test_a_key_that_stands_twice_is_refused(saved) -> None:
    text = saved.read_text(encoding="utf-8")
    saved.write_text(text.replace('"seed": 7', '"seed": 7, "seed": 8'), encoding="utf-8")
    with pytest.raises(ValueError, match="seed stands twice"):
        open_case(path=saved)
