"""Refusals of packing."""

from __future__ import annotations

from datetime import timedelta

from stockroom.domain.codes import PackageNumbersUsedUp
from stockroom.domain.keeping.headspace import TooMuchForContainer
from stockroom.domain.packing import (
    EmptyPackage,
    TooMuchPacked,
    read_split,
)
from stockroom.errors import (
    BadInput,
    NotFound,
)
from stockroom.services import (
    packing,
)
from stockroom.services.packing import LossReason
from tests.services.refusals.base import (
    ENDLESS,
    TOMORROW,
    Refusal,
    closed,
    many_packages,
    nothing,
    pack,
    packed_out,
    split,
)
from tests.world import TODAY

PACKING = (
    Refusal("packing.pack_lot", BadInput, closed, pack(), ("packages", "6xpouch-1500-foil:62")),
    Refusal("packing.pack_lot", NotFound, nothing, pack("1xjar-475:10"), ("lot", "“26329A”")),
    Refusal(
        "packing.pack_lot",
        packing.LotPackedOut,
        packed_out,
        pack("1xjar-475:10"),
        ("All of lot 26329A",),
    ),
    Refusal(
        "packing.pack_lot",
        TooMuchPacked,
        closed,
        pack("2xjar-475:77.6"),
        ("26329A", "155.0 g", "155.2 g"),
    ),
    Refusal(
        "packing.pack_lot",
        TooMuchPacked,
        closed,
        pack("1xjar-475:155", "2xjar-475:rest"),
        ("155.0 g", "155.2 g"),
    ),
    Refusal(
        "packing.pack_lot",
        TooMuchPacked,
        closed,
        pack("1xjar-475:150", losses=[(51, LossReason.TASTED)]),
        ("149.9 g", "150.0 g"),
    ),
    Refusal(
        "packing.pack_lot",
        packing.LotPackedOut,
        closed,
        pack("1xjar-475:155", losses=[(None, LossReason.TASTED)]),
        ("All of lot 26329A",),
    ),
    Refusal(
        "packing.pack_lot",
        EmptyPackage,
        closed,
        pack("1xjar-475:10", losses=[(0, LossReason.TASTED)]),
        ("26329A", "more than 0 g"),
    ),
    *(
        Refusal("packing.pack_lot", EmptyPackage, closed, split(each_dg=dg), ("more than 0 g",))
        for dg in (0, -5)
    ),
    *(
        Refusal(
            "packing.pack_lot",
            BadInput,
            closed,
            split(count=count),
            ("number of packages", f"“{count}”", "from 1 to 500"),
        )
        for count in (-1, 0, 501)
    ),
    *(
        Refusal(
            "packing.pack_lot",
            BadInput,
            closed,
            split(absorber_cc=cc),
            ("absorber", f"“{cc}”", "from 0 to 5000"),
        )
        for cc in (-1, 5_001)
    ),
    Refusal(
        "packing.pack_lot",
        NotFound,
        closed,
        pack("1xsock:10"),
        ("container", "“sock”"),
    ),
    Refusal(
        "packing.pack_lot",
        NotFound,
        closed,
        pack("1xjar-475:10", place="moon"),
        ("place", "“moon”"),
    ),
    *(
        Refusal(
            "packing.pack_lot",
            BadInput,
            closed,
            pack("1xjar-475:10", sealed_on=day),
            ("sealing day", "from 2026-11-25 to 2026-11-25"),
        )
        for day in (TOMORROW, TODAY - timedelta(days=1))
    ),
    Refusal(
        "packing.pack_lot",
        BadInput,
        closed,
        pack("1xjar-475:10", note=ENDLESS),
        ("note",),
    ),
    Refusal(
        "packing.pack_lot",
        TooMuchForContainer,
        lambda world: world.dry_lot(wet_g=9_000, dry_g=1_500),
        pack("1xjar-475:1400,absorber=300"),
        ("1400.0 g", "475 mL"),
    ),
    Refusal(
        "packing.pack_lot",
        PackageNumbersUsedUp,
        many_packages,
        pack("2xpouch-400-foil:1"),
        ("Lot 26329A", "999"),
    ),
    Refusal(
        "packing.record_loss",
        TooMuchPacked,
        closed,
        lambda room: packing.record_loss(room, "26329A", 1_551, LossReason.SPILT),
        ("155.0 g", "155.1 g"),
    ),
    Refusal(
        "packing.record_loss",
        packing.LotPackedOut,
        packed_out,
        lambda room: packing.record_loss(room, "26329A", None, LossReason.SPILT),
        ("All of lot 26329A",),
    ),
    *(
        Refusal(
            "packing.record_loss",
            EmptyPackage,
            closed,
            lambda room, dg=dg: packing.record_loss(room, "26329A", dg, LossReason.SPILT),
            ("more than 0 g",),
        )
        for dg in (0, -1)
    ),
    Refusal(
        "packing.record_loss",
        NotFound,
        closed,
        lambda room: packing.record_loss(room, "26328A", 1, LossReason.SPILT),
        ("lot", "Nearest: 26329A"),
    ),
    Refusal(
        "packing.packing_cautions",
        NotFound,
        closed,
        lambda room: packing.packing_cautions(room, "26329A", [read_split("1xsock")]),
        ("container",),
    ),
    Refusal(
        "packing.lot_detail",
        NotFound,
        closed,
        lambda room: packing.lot_detail(room, "26328A"),
        ("lot",),
    ),
)
