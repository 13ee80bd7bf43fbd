#include "yarns/gauge_rows.h"

#include "yarns/fault.h"
#include "yarns/sql/rows.h"
#include "yarns/sql/views.h"

namespace ridgetally {

void put_report(const sql::Database& database, std::int64_t number, const std::string& json) {
    database.run(
        "INSERT INTO report (measurement, json) VALUES (?1, ?2) "
        "ON CONFLICT (measurement) DO UPDATE SET json = excluded.json",
        number, json);
}

Refusal no_such_measurement(std::int64_t number) {
    return {record_stage, "no-such-measurement",
            "no measurement of the number " + std::to_string(number) + " is in the record",
            "look up the numbers with: yarn show NAME"};
}

std::int64_t insert_measurement(const sql::Database& database, std::int64_t yarn,
                                std::optional<std::int64_t> number, const Measurement& measurement) {
    auto statement = database.prepare(
        "INSERT INTO measurement (kind, taken, hook_mm, stitch, worked, state, stitches_per_10cm, "
        "stitches_std, rows_per_10cm, rows_std, mass_g, width_mm, height_mm, diameter_mm, rounds, "
        "last_round_stitches, photo_file, photo_sha256, yarn, number) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, "
        "?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16, ?17, ?18, ?19, ?20)");
    const int next = sql::bind_measurement(statement, 1, measurement);
    statement.bind(next, yarn);
    statement.bind(next + 1, number);
    statement.finish();
    const std::int64_t given = database.last_number();
    if (!measurement.report.empty()) put_report(database, given, measurement.report);
    return given;
}

std::vector<StoredMeasurement> read_measurements(const sql::Database& database, std::int64_t yarn,
                                                 Reports reports) {
    auto rows = database.query(
        "SELECT m.*, CASE WHEN ?2 THEN json END FROM present_measurement m "
        "LEFT JOIN report ON measurement = number WHERE yarn = ?1 ORDER BY number",
        yarn, reports == Reports::read ? 1 : 0);
    std::vector<StoredMeasurement> found;
    while (rows.step()) {
        found.push_back({rows.whole(0), sql::read_measurement(rows, 2)});
        found.back().measurement.report = rows.text(sql::present_measurement_columns);
    }
    return found;
}

void update_measurement(const sql::Database& database, std::int64_t number, const Measurement& measurement) {
    auto statement = database.prepare(
        "UPDATE measurement SET kind = ?1, taken = ?2, hook_mm = ?3, stitch = ?4, worked = ?5, state = ?6, "
        "stitches_per_10cm = ?7, stitches_std = ?8, rows_per_10cm = ?9, rows_std = ?10, mass_g = ?11, "
        "width_mm = ?12, height_mm = ?13, diameter_mm = ?14, rounds = ?15, last_round_stitches = ?16, "
        "photo_file = ?17, photo_sha256 = ?18 WHERE number = ?19");
    const int next = sql::bind_measurement(statement, 1, measurement);
    statement.bind(next, number);
    statement.finish();
}

std::optional<Refusal> saved_before(const sql::Database& database, const Measurement& measurement) {
    if (measurement.photo_sha256.empty()) return std::nullopt;
    auto row = database.query(
        "SELECT number, name FROM present_measurement JOIN present_yarn ON id = yarn "
        "WHERE kind = ?2 AND photo_sha256 = ?1 AND photo_sha256 <> ''",
        measurement.photo_sha256, key_of(measurement.kind));
    if (!row.step()) return std::nullopt;
    return Refusal{record_stage, "photo-saved",
                   "this photo is already in the record as number " + std::to_string(row.whole(0)) +
                       ", of \"" + row.text(1) + "\"",
                   "remove that first: yarn remove --number " + std::to_string(row.whole(0))};
}

}  // namespace ridgetally
