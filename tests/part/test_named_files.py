"""Files that a part names: how far names are followed, how often a file is read, what is shown."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilegen.errors import InputError
from profilegen.part import named_file, reading, references
from profilegen.part.drawer import choose_drawer, load_drawer
from profilegen.part.load import load
from tests.part.test_drawer import WHEEL, drawing, drawn, form, write

SECRET = "root:x:0:0:s3cr3t line of another file"
VEE = [(-2.0, 3.0), (0.0, 0.0), (2.0, 3.0)]


def told(path: Path) -> str:
    """What is wrong with a part, its drawer read too."""
    with pytest.raises(InputError) as caught:
        choose_drawer(load(path))
    return str(caught.value)


def reads(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """The files that are read from now on through names, one entry for each reading."""
    found: list[Path] = []

    def text(file: Path, what: str = "a part file") -> str:
        found.append(file)
        return reading.text_of(file, what)

    def data(file: Path, most: int, what: str) -> bytes:
        found.append(file)
        return reading.bytes_of(file, most, what)

    monkeypatch.setattr(named_file, "text_of", text)
    monkeypatch.setattr(references, "bytes_of", data)
    return found


def test_six_files_of_ten_form_cutters_each(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each names all the others: every one is read once, not once for each way to it."""
    names = [f"{letter}.toml" for letter in "abcdef"]
    for name in names:
        each = [form(names[n % 6]).replace('"form"', f'"{n}"', 1) for n in range(10)]
        write(tmp_path, name, WHEEL, *each)
    found = reads(monkeypatch)
    assert len(load(tmp_path / "a.toml").cutters) == 10
    assert sorted(path.name for path in found) == names


def test_a_chain_of_form_files_has_no_depth(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of the file that a form cutter names only the wheel is read: the second of 400 is the end."""
    for n in range(400):
        write(tmp_path, f"{n}.toml", WHEEL, form(f"{n + 1}.toml"))
    found = reads(monkeypatch)
    assert load(tmp_path / "0.toml").cutters
    assert [path.name for path in found] == ["1.toml"]


def test_a_chain_of_hardware_files_has_a_limit(tmp_path: Path) -> None:
    """1200 files that each name the next are not followed to the end, and that is told."""
    for n in range(1200):
        (tmp_path / f"{n}.toml").write_text(f'dividing = "{n + 1}.toml"')
    path = write(tmp_path, "part.toml", 'dividing = "0.toml"', WHEEL)
    said = told(path)
    assert said.startswith("dividing, line 2: 8 files name each other")
    last = tmp_path / f"{references.MOST_STEPS - 1}.toml"
    last.write_text("[dividing]\nkind = 'notched'\nnotches = 30\n")
    assert load(path).dividing is not None


def test_a_drawing_is_read_once_for_all_its_layers(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Many cutters drawn on layers of one file."""
    drawing(tmp_path / "edge.dxf", *((f"L{n}", VEE) for n in range(20)))
    each = [drawn(f"L{n}").replace('"d"', f'"{n}"', 1) for n in range(20)]
    found = reads(monkeypatch)
    assert len(load_drawer(write(tmp_path, "d.toml", *each))) == 20
    assert len(found) == 1


def test_a_file_that_is_wrong_is_read_once_and_told_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The later cutters that name it point to the first."""
    write(tmp_path, "bad.toml", WHEEL.replace("30", "1"))
    each = [form("bad.toml").replace('"form"', f'"{n}"', 1) for n in range(3)]
    found = reads(monkeypatch)
    with pytest.raises(InputError) as caught:
        load(write(tmp_path, "a.toml", WHEEL, *each))
    first, second, third = caught.value.problems
    assert "bad.toml: wheel.teeth, line 5" in first.message
    assert "see cutter[1].of" in second.message
    assert "see cutter[1].of" in third.message
    assert len(found) == 1


def test_too_many_files_are_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A drawer may name so many files and no more; the limit is said."""
    monkeypatch.setattr(references, "MOST_FILES", 3)
    for n in range(4):
        write(tmp_path, f"{n}.toml", WHEEL)
    each = [form(f"{n}.toml").replace('"form"', f'"{n}"', 1) for n in range(4)]
    with pytest.raises(InputError) as caught:
        load_drawer(write(tmp_path, "d.toml", *each))
    (problem,) = caught.value.problems
    assert "cutter[4].of" in problem.where
    assert problem.allowed == "up to 3 different ones"


@pytest.mark.parametrize(
    "line",
    ['drawer = "{}"', 'dividing = "{}"', form("{}")],
    ids=["drawer", "dividing", "form"],
)
@pytest.mark.parametrize("text", [SECRET, f"a = 1\n{SECRET}", f"ü\n{SECRET}".encode("latin-1")])
def test_a_file_from_elsewhere_shows_none_of_its_lines(
    tmp_path: Path, line: str, text: str | bytes
) -> None:
    """Of a named file that is no TOML the place is told; its lines only when it lies in the part's
    own folder or below."""
    home = tmp_path / "home"
    (home / "below").mkdir(parents=True)
    data = text if isinstance(text, bytes) else text.encode()
    for place in (tmp_path / "other.toml", home / "below" / "other.toml"):
        place.write_bytes(data)
    parts = (line, WHEEL) if "cutter" not in line else (WHEEL, line)
    far, near = (
        told(write(home, "p.toml", *(part.replace("{}", name) for part in parts)))
        for name in ("../other.toml", "below/other.toml")
    )
    assert "s3cr3t" not in far
    assert "ü" not in far
    assert "other.toml, line" in far
    assert ("s3cr3t" in near) or ("ü" in near)


def test_a_link_leads_elsewhere(tmp_path: Path) -> None:
    """A link beside the part to a file elsewhere shows no lines either, and neither does a link
    with the name of the drawer that is found without being named."""
    home = tmp_path / "home"
    home.mkdir()
    (tmp_path / "other.toml").write_text(SECRET)
    for name in ("link.toml", "drawer.toml"):
        try:
            (home / name).symlink_to(tmp_path / "other.toml")
        except OSError:
            pytest.skip("this system makes no links")
    for line in ('drawer = "link.toml"', ""):
        said = told(write(home, "p.toml", line, WHEEL))
        assert "s3cr3t" not in said
        assert "line 1: this is no TOML" in said


def test_a_drawer_elsewhere_is_still_read_and_told_whole(tmp_path: Path) -> None:
    """A drawer that the whole shop uses may lie anywhere: what is wrong in it has its line."""
    home = tmp_path / "home"
    home.mkdir()
    bad = '[[cutter]]\nname = "a"\nkind = "slot"\nwidth = 0\n'
    write(tmp_path, "shop.toml", bad)
    said = told(write(home, "p.toml", 'drawer = "../shop.toml"', WHEEL))
    assert "shop.toml: cutter[1].width, line 5: a size must be more than 0" in said
