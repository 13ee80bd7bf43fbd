#pragma once

#include <vector>

#include "advice/yarn_needed.h"
#include "yarns/chosen_gauge.h"

/// What yarn pieces took, as the record has it.
namespace ridgetally {

/// A mass of the record with how well it was read: half a unit of its last decimal, in ounces where it is a
/// round figure of those and not of grams; half a gram where it is neither (no source). A zero at the end is
/// not kept in the record, which only makes the reading look coarser.
[[nodiscard]] Measured mass_as_recorded(double mass_g);

struct RecordedUse {
    WeighedPiece weighed;  ///< all weighed swatches of one kind, put together
    std::vector<Reason> reasons;
};

/// What the weighed swatches of the kind told took, chosen as by choose_gauge among those that were weighed
/// and whose size is known. The area's uncertainty is that of the report where there is one; sides told by
/// hand are taken as area_by_hand does. `measurements` with their reports. Refusals: of choose_gauge, and
/// no-weighed-swatch where none was weighed.
[[nodiscard]] Outcome<RecordedUse> recorded_use(const Yarn& yarn,
                                                const std::vector<StoredMeasurement>& measurements,
                                                const GaugeChoice& choice);

/// What the piece of that number took. Refusals: no-such-measurement where the yarn has no such number, and
/// no-weighed-swatch where it was not weighed.
[[nodiscard]] Outcome<Measured> recorded_mass(const Yarn& yarn,
                                              const std::vector<StoredMeasurement>& measurements,
                                              std::int64_t number);

}  // namespace ridgetally
