"""The tables: what is read is what stands in the file, and a wrong cell is refused by its place."""

from __future__ import annotations

import csv

import pytest

from linelib import tables
from linelib.tables import DATA, webbing, webbing_notes, webbings


@pytest.fixture
def changed(tmp_path):
    """A copy of the table with some cells of one row changed; returns where it is."""

    def change(row_id="hmpe_25mm", **cells):
        with (DATA / "webbings.csv").open(encoding="utf-8", newline="") as lines:
            rows = list(csv.DictReader(lines))
        for row in rows:
            if row["id"] == row_id:
                row.update(cells)
        path = tmp_path / "webbings.csv"
        with path.open("w", encoding="utf-8", newline="") as lines:
            writer = csv.DictWriter(lines, fieldnames=list(rows[0]))
            writer.writeheader()
            writer.writerows(rows)
        return path

    return change


def test_units_are_turned_into_si(changed):
    path = changed(width_mm="24", mass_g_per_m="50", breaking_strength_kN="32.5", strain_percent_at_15_kN="1.6")
    hmpe = webbings(path=path)["hmpe_25mm"]
    assert (hmpe.width, hmpe.mass_per_length, hmpe.breaking_strength) == (0.024, 0.05, 32500.0)
    assert hmpe.tension == (0.0, 1e3, 2e3, 3e3, 5e3, 7e3, 1e4, 1.5e4)
    assert hmpe.strain[-1] == pytest.approx(0.016)
    assert hmpe.strain[0] == 0.0


def test_empty_cells_at_the_end_make_a_shorter_table(changed):
    hmpe = webbings(path=changed(strain_percent_at_15_kN=" "))["hmpe_25mm"]
    assert hmpe.tension[-1] == 1e4
    assert len(hmpe.strain) == len(hmpe.tension) == 7


def test_a_table_that_ends_below_10_kn_is_refused(changed):
    path = changed(strain_percent_at_10_kN="", strain_percent_at_15_kN="")
    with pytest.raises(ValueError, match="column strain_percent_at_10_kN = ''"):
        webbings(path=path)


def test_every_row_has_a_source_and_an_uncertainty():
    notes = webbing_notes()
    assert list(notes) == list(webbings())
    for note in notes.values():
        assert "from memory" in note.source
        assert "our choice" in note.source
        assert 0.05 <= min(note.strain_uncertainty, note.strength_uncertainty, note.fast_ratio_uncertainty) < 1.0


def test_uncertainty_is_read_as_a_share(changed):
    note = webbing_notes(path=changed(strain_uncertainty_percent="25"))["hmpe_25mm"]
    assert note.strain_uncertainty == 0.25
    assert note.fibres == ("HMPE",)


def test_a_webbing_by_its_id():
    assert webbing("hmpe_25mm") == webbings()["hmpe_25mm"]
    with pytest.raises(ValueError, match=r"webbing = 'silk' .* one of .*hmpe_25mm.*polyester_25mm"):
        webbing("silk")


@pytest.mark.parametrize(
    ("column", "text", "allowed"),
    [
        ("width_mm", "", "a number from 1 to 500 mm"),
        ("width_mm", "0,25", "with a point, not a comma"),
        ("width_mm", "0.025", "from 1 to 500 mm"),
        ("mass_g_per_m", "nan", "from 1 to 500 g/m"),
        ("mass_g_per_m", "-48", "from 1 to 500 g/m"),
        ("breaking_strength_kN", "35000", "from 10 to 500 kN"),
        ("breaking_strength_kN", "1_0", "from 10 to 500 kN"),
        ("fast_ratio", "0.8", "from 1 to 20"),
        ("relaxation_time_s", "0", "from 0.001 to 10000 s"),
        ("loss_time_s", "2", "from 0 to 0.1 s"),
        ("strain_percent_at_0_kN", "0.1", "0 % at 0 kN"),
        ("strain_percent_at_5_kN", "0.4", "more than in the column before"),
        ("strain_percent_at_5_kN", "", "a number from 0 to 100 %"),
        ("strain_percent_at_10_kN", "", "a number from 0 to 100 %"),
        ("strain_percent_at_15_kN", "x", "a number from 0 to 100 %"),
        ("fibre", "silk", "polyamide, polyester, HMPE"),
        ("fibre", "HMPE+", "joined by +"),
        ("name", "", "some words"),
        ("source", "", "some words"),
    ],
)
def test_a_wrong_cell_is_refused_by_file_row_column_value_and_what_is_allowed(changed, column, text, allowed):
    with pytest.raises(ValueError, match=r"webbings\.csv, row hmpe_25mm, column ") as refusal:
        webbings(path=changed(**{column: text}))
    assert f"column {column} = " in str(refusal.value)
    assert text in str(refusal.value)
    assert allowed in str(refusal.value).partition("allowed: ")[2]


def test_a_wrong_uncertainty_is_refused(changed):
    with pytest.raises(ValueError, match=r"row hmpe_25mm, column strength_uncertainty_percent = 120.*0 to 100 %"):
        webbing_notes(path=changed(strength_uncertainty_percent="120"))


def test_strain_above_the_breaking_strength_is_refused(changed):
    path = changed(row_id="polyamide_tubular_25mm", breaking_strength_kN="14", strain_percent_at_15_kN="25")
    with pytest.raises(ValueError, match=r"row polyamide_tubular_25mm, column strain_percent_at_15_kN = 25.*empty"):
        webbings(path=path)


@pytest.mark.parametrize("text", ["polyester_25mm", "Hmpe 25", ""])
def test_a_wrong_or_repeated_id_is_refused(changed, text):
    with pytest.raises(ValueError, match="column id = "):
        webbings(path=changed(id=text))


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("width_mm", "width_cm", "columns = .*'width_cm', 'width_mm'.*allowed: each of these once"),
        ("id,name", "id,id,name", "columns = .*allowed: each of these once"),
        ('"HMPE, 25 mm"', "HMPE, 25 mm", "row hmpe_25mm, number of cells = 22 .*allowed: 21"),
        ('"HMPE, 25 mm",', '"HMPE, 25 mm"x,', "comma-separated text"),
        (",", ";", "columns = "),
    ],
)
def test_a_wrong_shape_is_refused(tmp_path, old, new, words):
    text = (DATA / "webbings.csv").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "webbings.csv"
    path.write_text(text.replace(old, new), encoding="utf-8")
    with pytest.raises(ValueError, match=words):
        webbings(path=path)


@pytest.mark.parametrize("content", [b"", b"\xff\xfe,"])
def test_an_empty_file_or_one_that_is_not_text_is_refused(tmp_path, content):
    path = tmp_path / "webbings.csv"
    path.write_bytes(content)
    with pytest.raises(ValueError, match=r"webbings\.csv"):
        webbings(path=path)


def test_a_table_without_rows_is_refused(tmp_path):
    path = tmp_path / "webbings.csv"
    path.write_text((DATA / "webbings.csv").read_text(encoding="utf-8").splitlines()[0], encoding="utf-8")
    with pytest.raises(ValueError, match="at least one row"):
        webbings(path=path)


def test_a_mark_at_the_start_of_the_file_does_no_harm(tmp_path):
    """Spreadsheets write one in front of UTF-8."""
    path = tmp_path / "webbings.csv"
    path.write_bytes(b"\xef\xbb\xbf" + (DATA / "webbings.csv").read_bytes())
    assert webbings(path=path) == webbings()


def test_without_the_data_folder_the_error_says_where_it_belongs(tmp_path, monkeypatch):
    monkeypatch.setattr(tables, "DATA", tmp_path / "data")
    with pytest.raises(FileNotFoundError, match="'data' belongs beside the folder 'linelib'"):
        webbings()
