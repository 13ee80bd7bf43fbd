#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "yarns/import.h"

namespace ridgetally {

/// What a sheet of yarns (with a column "name") or of measurements (with a column "yarn") holds. `today` (ISO
/// 8601) stands where no day was told. Refusals: bad-csv, bad-value.
[[nodiscard]] Outcome<std::vector<IncomingYarn>> incoming_from_csv(std::string_view csv,
                                                                   const std::string& today);

}  // namespace ridgetally
