"""The writer itself: what it promises of its bytes, and what it refuses."""

from __future__ import annotations

import io
from typing import Any

import ezdxf
import pytest

from profilegen.dxf.writing import Layer, Version, dxf_bytes
from profilegen.geometry.chain import chain, circle, contour
from tests.readers.files import VERSIONS

SQUARE = contour([0, 1, 1 + 1j, 1j], [0, 0.25, 0, 0])
RUN = chain([0, 2, 3 + 1j], [0.5, 0])


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_same_bytes_twice(unit: str, version: Version) -> None:
    """The same layers give the same bytes: no date, no random identifier."""
    layers = (Layer("OUTLINE", (SQUARE,)), Layer("HOLES", (circle(0.5 + 0.5j, 0.2),)))
    assert dxf_bytes(layers, unit, version) == dxf_bytes(layers, unit, version)  # type: ignore[arg-type]


@pytest.mark.parametrize("before", [True, False])
def test_metadata_switch_is_put_back(before: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """The library's global switch stands afterwards as it stood before."""
    monkeypatch.setattr(ezdxf.options, "write_fixed_meta_data_for_testing", before)
    dxf_bytes((Layer("OUTLINE", (SQUARE,)),), "mm")
    assert ezdxf.options.write_fixed_meta_data_for_testing is before


@pytest.mark.parametrize("layers", [(), (Layer("OUTLINE", ()),)])
def test_empty_drawing_is_refused(layers: tuple[Layer, ...]) -> None:
    """A drawing without a curve is no drawing."""
    with pytest.raises(ValueError, match="without curves"):
        dxf_bytes(layers, "mm")


@pytest.mark.parametrize("version", VERSIONS)
def test_chain_is_an_open_polyline(version: Version) -> None:
    """An open run is written open, its last point kept."""
    text = dxf_bytes((Layer("SHEET", (RUN,)),), "mm", version).decode()
    entity: Any = next(iter(ezdxf.read(io.StringIO(text)).modelspace()))
    points = list(entity.points()) if version == "R12" else entity.get_points("xy")
    assert [tuple(point)[:2] for point in points] == [(0, 0), (2, 0), (3, 1)]
    assert not (entity.is_closed if version == "R12" else entity.closed)


def test_default_version_is_r2010() -> None:
    """R2010, which every vendor's reader knows."""
    assert b"AC1024" in dxf_bytes((Layer("OUTLINE", (SQUARE,)),), "mm")


@pytest.mark.parametrize("version", VERSIONS)
def test_bytes_are_plain_ascii(version: Version) -> None:
    """No reader needs to know an encoding."""
    assert dxf_bytes((Layer("OUTLINE", (SQUARE,)),), "in", version).isascii()


def test_radii_are_written_without_the_noise_of_the_sums() -> None:
    """A bore in 64ths of an inch has a radius of few decimals in an inch drawing."""
    parts = range(1, 200)
    bores = tuple(circle(0j, part / 64 * 25.4 / 2) for part in parts)
    data = dxf_bytes((Layer("HOLES", bores),), "in")
    entities = ezdxf.read(io.StringIO(data.decode())).modelspace()
    assert [entity.dxf.radius for entity in entities] == [part / 128 for part in parts]
