#pragma once

#include <optional>
#include <string>

#include "advice/yarn_needed.h"
#include "report/document.h"
#include "report/workings.h"

namespace ridgetally {

/// Yarn in a piece that was weighed: the block `yarn_use` of the contract, with mass, area and the yarn for
/// 100 cm2, and how they came about where that is asked for. Without `piece`, whose area the photo did not
/// show, the mass alone.
[[nodiscard]] Document yarn_use_document(const Measured& mass_g, const std::optional<WeighedPiece>& piece,
                                         Why why);

/// "Yarn: 5.7 \u00B1 0.3 g for 100 cm2 (12.4 \u00B1 0.1 g in 165 \u00B1 5 cm2).", and how that came about;
/// without the area, what to do.
[[nodiscard]] std::string yarn_use_text(const Measured& mass_g, const std::optional<WeighedPiece>& piece,
                                        Why why);

}  // namespace ridgetally
