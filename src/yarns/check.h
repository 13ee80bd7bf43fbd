#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "yarns/record.h"

namespace ridgetally {

/// What looking through the whole record found.
struct RecordCheck {
    std::int64_t yarns = 0;
    std::int64_t measurements = 0;
    std::int64_t removed = 0;         ///< yarns and measurements that can still be brought back
    std::vector<std::string> faults;  ///< damage; empty where all is well
    std::vector<std::string> notes;   ///< nothing wrong, but worth a look
};

/// Looks through every page, index, reference and value. Faults are findings, not refusals, as far as the
/// file can be read at all.
[[nodiscard]] Outcome<RecordCheck> check_record(const Record& record);

}  // namespace ridgetally
