#pragma once

#include <cstdint>
#include <functional>
#include <string_view>
#include <vector>

#include "yarns/measurement.h"
#include "yarns/record.h"

/// The measurements of the record. Every function is one transaction. Refusals as in stock.h, and those named
/// here.
namespace ridgetally {

/// Puts a measurement of the yarn of that name into the record and gives its number. Refusals: no-such-yarn,
/// bad-value, photo-saved (the same photo is there already: counted twice it would look surer than it is).
[[nodiscard]] Outcome<std::int64_t> save_measurement(const Record& record, std::string_view yarn,
                                                     const Measurement& measurement);

/// Whether the reports are read, too.
enum class Reports { left, read };

/// Measurements of the yarn of that name, by their numbers. Refusal: no-such-yarn.
[[nodiscard]] Outcome<std::vector<StoredMeasurement>> measurements_of(const Record& record,
                                                                      std::string_view yarn, Reports reports);

/// Changes what the maker told of a measurement; the report stays as it is. `change` as in change_yarn.
/// Refusals: no-such-measurement, bad-value.
[[nodiscard]] Outcome<Measurement> change_measurement(
    const Record& record, std::int64_t number,
    const std::function<Outcome<Measurement>(Measurement)>& change);

}  // namespace ridgetally
