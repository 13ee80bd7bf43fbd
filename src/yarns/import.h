#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "yarns/measurement.h"
#include "yarns/record.h"
#include "yarns/yarn.h"

namespace ridgetally {

/// What happens to a yarn or a measurement that the record holds already, but with other values.
enum class Existing {
    refused,  ///< nothing at all is imported
    kept,     ///< it stays as it is in the record
    replaced  ///< it becomes as it is in the file
};

/// A yarn of a file.
struct IncomingYarn {
    std::string name;
    /// The yarn as the file has it, made from what the record has, if it has it: a sheet need not have every
    /// column. Empty where the file has measurements only.
    std::function<Outcome<Yarn>(const std::optional<Yarn>& before)> yarn;
    std::vector<StoredMeasurement> measurements;
};

/// What an import did.
struct ImportSummary {
    int yarns_added = 0;
    int measurements_added = 0;
    int already_there = 0;  ///< yarns and measurements that the record held with the same values
    int replaced = 0;
    std::vector<std::string> kept;  ///< names of yarns that differ and were kept, or whose measurements were
};

/// Takes all of it into the record, in one transaction, or nothing. A measurement is the same as one of the
/// record if it is of the same photo or has the same values. It keeps its number where that was never used.
/// Refusals: differs-from-record (with Existing::refused), no-such-yarn, bad-value, photo-saved, bad-document
/// (a name that comes twice).
[[nodiscard]] Outcome<ImportSummary> import_yarns(const Record& record,
                                                  const std::vector<IncomingYarn>& incoming,
                                                  Existing existing);

}  // namespace ridgetally
