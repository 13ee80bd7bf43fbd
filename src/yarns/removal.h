#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "yarns/record.h"

/// Removing, and bringing back what was removed last. Every function is one transaction; refusals as in
/// stock.h, and those named here.
namespace ridgetally {

/// What was removed or brought back.
struct Removal {
    std::string yarn;                    ///< its name
    std::optional<std::int64_t> number;  ///< of the measurement, where it was one and not the whole yarn
};

/// Takes a yarn with its measurements out of the record. Refusal: no-such-yarn.
[[nodiscard]] Outcome<Removal> remove_yarn(const Record& record, std::string_view name);

/// Takes one measurement out of the record. Refusal: no-such-measurement.
[[nodiscard]] Outcome<Removal> remove_measurement(const Record& record, std::int64_t number);

/// Brings back what was removed last; once more, what was removed before that, and so on. Refusals:
/// nothing-removed; name-taken, where another yarn has got the name since. A photo that was saved again since
/// is there twice then: nothing is lost, and `check_record` tells.
[[nodiscard]] Outcome<Removal> undo_removal(const Record& record);

}  // namespace ridgetally
