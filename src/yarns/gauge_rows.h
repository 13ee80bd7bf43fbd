#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/outcome.h"
#include "yarns/gauges.h"
#include "yarns/sql/database.h"

/// Reading and inserting measurements inside a transaction of the caller. Used inside this layer only; faults
/// are thrown as sql::Fault.
namespace ridgetally {

/// Inserts the measurement with its report, under `number` where one is given, and gives its number.
std::int64_t insert_measurement(const sql::Database& database, std::int64_t yarn,
                                std::optional<std::int64_t> number, const Measurement& measurement);

/// Measurements of the yarn with this number, by their own numbers.
[[nodiscard]] std::vector<StoredMeasurement> read_measurements(const sql::Database& database,
                                                               std::int64_t yarn, Reports reports);

/// Changes all but the report of a measurement.
void update_measurement(const sql::Database& database, std::int64_t number, const Measurement& measurement);

/// Writes the report of a measurement, over the one it had.
void put_report(const sql::Database& database, std::int64_t number, const std::string& json);

/// Where the same photo is in the record already: photo-saved.
[[nodiscard]] std::optional<Refusal> saved_before(const sql::Database& database,
                                                  const Measurement& measurement);

[[nodiscard]] Refusal no_such_measurement(std::int64_t number);

}  // namespace ridgetally
