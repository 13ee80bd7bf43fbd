#pragma once

#include <optional>
#include <string>

#include "core/measured.h"
#include "report/document.h"

namespace ridgetally {

/// Yarn in a piece that was weighed: the block `yarn_use` of the contract, with mass, area and the yarn for
/// 100 cm2. The area is absent where the photo does not show all of the piece, and the yarn for 100 cm2 with
/// it.
[[nodiscard]] Document yarn_use_document(const Measured& mass_g, const std::optional<Measured>& area_mm2);

/// "Yarn: 5.7 \u00B1 0.3 g for 100 cm2 (12.4 \u00B1 0.1 g in 165 \u00B1 5 cm2)."; without the area, what to
/// do.
[[nodiscard]] std::string yarn_use_text(const Measured& mass_g, const std::optional<Measured>& area_mm2);

/// Width by height, where both are known.
[[nodiscard]] std::optional<Measured> area_of_sides(const std::optional<Measured>& width_mm,
                                                    const std::optional<Measured>& height_mm);

}  // namespace ridgetally
