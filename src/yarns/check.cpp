#include "yarns/check.h"

#include "yarns/documents.h"
#include "yarns/fault.h"
#include "yarns/sql/rows.h"
#include "yarns/sql/views.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

std::int64_t count(const sql::Database& database, sql::Text text) {
    auto row = database.query(text);
    return row.step() ? row.whole(0) : 0;
}

/// Pages, indexes and constraints of the tables, as SQLite checks them itself.
void check_pages(const sql::Database& database, RecordCheck& check) {
    auto rows = database.query("PRAGMA integrity_check");
    while (rows.step()) {
        if (rows.text(0) != "ok") check.faults.push_back(rows.text(0));
    }
    auto orphans = database.query("SELECT \"table\", rowid, parent FROM pragma_foreign_key_check");
    while (orphans.step()) {
        check.faults.push_back("row " + orphans.text(1) + " of " + orphans.text(0) + " belongs to no " +
                               orphans.text(2));
    }
}

/// Values that this program would not have let in.
void check_values(const sql::Database& database, RecordCheck& check) {
    auto yarns = database.query("SELECT * FROM present_yarn");
    while (yarns.step()) {
        const auto good = checked(sql::read_yarn(yarns, 1));
        if (!good) check.faults.push_back("yarn " + yarns.text(0) + ": " + good.refusal().message);
    }
    auto measurements = database.query(
        "SELECT m.*, json FROM present_measurement m LEFT JOIN report ON measurement = number");
    constexpr int report_column = sql::present_measurement_columns;
    while (measurements.step()) {
        const std::string which = "measurement " + measurements.text(0) + ": ";
        const auto good = checked(sql::read_measurement(measurements, 2));
        if (!good) check.faults.push_back(which + good.refusal().message);
        if (!measurements.is_null(report_column) && !parse_document(measurements.text(report_column)))
            check.faults.push_back(which + "its report is no JSON document");
    }
}

void note_photos_saved_twice(const sql::Database& database, RecordCheck& check) {
    auto rows = database.query(
        "SELECT group_concat(number, ', ') FROM present_measurement WHERE photo_sha256 <> '' "
        "GROUP BY photo_sha256 HAVING count(*) > 1");
    while (rows.step())
        check.notes.push_back("the same photo was saved more than once: numbers " + rows.text(0));
}

}  // namespace

Outcome<RecordCheck> check_record(const Record& record) {
    return guarded(record.path(), [&]() -> Outcome<RecordCheck> {
        const sql::Database& database = record.database();
        const sql::Transaction one_state(database, sql::Purpose::reading);
        RecordCheck check;
        check_pages(database, check);
        if (!check.faults.empty()) return check;
        check.yarns = count(database, "SELECT count(*) FROM present_yarn");
        check.measurements = count(database, "SELECT count(*) FROM present_measurement");
        check.removed = count(database,
                              "SELECT (SELECT count(*) FROM yarn WHERE removed IS NOT NULL) + "
                              "(SELECT count(*) FROM measurement WHERE removed IS NOT NULL)");
        check_values(database, check);
        note_photos_saved_twice(database, check);
        return check;
    });
}

}  // namespace ridgetally
