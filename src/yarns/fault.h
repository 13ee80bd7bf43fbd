#pragma once

#include <string>

#include "core/outcome.h"
#include "yarns/sql/database.h"

namespace ridgetally {

/// Stage of every refusal of this layer.
inline constexpr const char* record_stage = "record";

/// What SQLite's fault means for the maker. Codes: record-busy, record-damaged, io. `path` is the file's.
/// Faults that only a mistake in this layer can cause are thrown on.
[[nodiscard]] Refusal record_refusal(const sql::Fault& fault, const std::string& path);

/// Gives what `work` gives; a fault of SQLite on the way becomes a Refusal. `work` returns an Outcome.
template <typename Work>
[[nodiscard]] auto guarded(const std::string& path, Work work) -> decltype(work()) {
    try {
        return work();
    } catch (const sql::Fault& fault) {
        return record_refusal(fault, path);
    }
}

}  // namespace ridgetally
