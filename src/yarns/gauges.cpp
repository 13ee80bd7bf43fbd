#include "yarns/gauges.h"

#include "yarns/fault.h"
#include "yarns/gauge_rows.h"
#include "yarns/names.h"
#include "yarns/sql/rows.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

Outcome<Measurement> measurement_numbered(const sql::Database& database, std::int64_t number) {
    auto row = database.query("SELECT * FROM present_measurement WHERE number = ?1", number);
    if (row.step()) return sql::read_measurement(row, 2);
    return no_such_measurement(number);
}

}  // namespace

Outcome<std::int64_t> save_measurement(const Record& record, std::string_view yarn,
                                       const Measurement& measurement) {
    const auto good = checked(measurement);
    if (!good) return good.refusal();
    return guarded(record.path(), [&]() -> Outcome<std::int64_t> {
        const sql::Database& database = record.database();
        sql::Transaction transaction(database, sql::Purpose::writing);
        const auto stored = yarn_named(database, trimmed_name(yarn));
        if (!stored) return stored.refusal();
        if (const auto before = saved_before(database, *good)) return *before;
        const std::int64_t number = insert_measurement(database, stored->id, std::nullopt, *good);
        transaction.commit();
        return number;
    });
}

Outcome<std::vector<StoredMeasurement>> measurements_of(const Record& record, std::string_view yarn,
                                                        Reports reports) {
    return guarded(record.path(), [&]() -> Outcome<std::vector<StoredMeasurement>> {
        const sql::Database& database = record.database();
        const sql::Transaction one_state(database, sql::Purpose::reading);
        const auto stored = yarn_named(database, trimmed_name(yarn));
        if (!stored) return stored.refusal();
        return read_measurements(database, stored->id, reports);
    });
}

Outcome<Measurement> change_measurement(const Record& record, std::int64_t number,
                                        const std::function<Outcome<Measurement>(Measurement)>& change) {
    return guarded(record.path(), [&]() -> Outcome<Measurement> {
        const sql::Database& database = record.database();
        sql::Transaction transaction(database, sql::Purpose::writing);
        const auto before = measurement_numbered(database, number);
        if (!before) return before.refusal();
        const auto changed = change(*before);
        if (!changed) return changed.refusal();
        auto good = checked(*changed);
        if (!good) return good;
        update_measurement(database, number, *good);
        transaction.commit();
        return good;
    });
}

}  // namespace ridgetally
