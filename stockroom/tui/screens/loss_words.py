"""What the reasons for a loss mean, in the words of the screens."""

from __future__ import annotations

from stockroom.services.packing import LossReason

LOSS_WORDS = {
    LossReason.TASTED: "eaten to try it, or as a treat",
    LossReason.SPILT: "on the floor or the bench",
    LossReason.DISCARDED: "not fit to pack, thrown away",
    LossReason.UNACCOUNTED: "gone, and nobody knows where",
}
