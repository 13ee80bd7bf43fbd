#include "yarns/removal.h"

#include "yarns/fault.h"
#include "yarns/gauge_rows.h"
#include "yarns/names.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

/// Number of the last removal that was not undone; 0 where there is none.
std::int64_t last_removal(const sql::Database& database) {
    auto row = database.query(
        "SELECT max(coalesce((SELECT max(removed) FROM yarn), 0), "
        "coalesce((SELECT max(removed) FROM measurement), 0))");
    return row.step() ? row.whole(0) : 0;
}

std::optional<Removal> removed_measurement(const sql::Database& database, std::int64_t removal) {
    auto row = database.query(
        "SELECT y.name, m.number FROM measurement m JOIN yarn y ON y.id = m.yarn WHERE m.removed = ?1",
        removal);
    if (!row.step()) return std::nullopt;
    return Removal{row.text(0), row.whole(1)};
}

std::string removed_yarn(const sql::Database& database, std::int64_t removal) {
    auto row = database.query("SELECT name FROM yarn WHERE removed = ?1", removal);
    return row.step() ? row.text(0) : "";
}

}  // namespace

Outcome<Removal> remove_yarn(const Record& record, std::string_view name) {
    return guarded(record.path(), [&]() -> Outcome<Removal> {
        const sql::Database& database = record.database();
        sql::Transaction transaction(database, sql::Purpose::writing);
        const auto stored = yarn_named(database, trimmed_name(name));
        if (!stored) return stored.refusal();
        database.run("UPDATE yarn SET removed = ?1 WHERE id = ?2", last_removal(database) + 1, stored->id);
        transaction.commit();
        return Removal{stored->yarn.name, std::nullopt};
    });
}

Outcome<Removal> remove_measurement(const Record& record, std::int64_t number) {
    return guarded(record.path(), [&]() -> Outcome<Removal> {
        const sql::Database& database = record.database();
        sql::Transaction transaction(database, sql::Purpose::writing);
        const std::int64_t removal = last_removal(database) + 1;
        database.run(
            "UPDATE measurement SET removed = ?1 WHERE number = ?2 AND removed IS NULL "
            "AND yarn IN (SELECT id FROM yarn WHERE removed IS NULL)",
            removal, number);
        const auto removed = removed_measurement(database, removal);
        if (!removed) return no_such_measurement(number);
        transaction.commit();
        return *removed;
    });
}

Outcome<Removal> undo_removal(const Record& record) {
    return guarded(record.path(), [&]() -> Outcome<Removal> {
        const sql::Database& database = record.database();
        sql::Transaction transaction(database, sql::Purpose::writing);
        const std::int64_t removal = last_removal(database);
        if (removal == 0) {
            return Refusal{record_stage, "nothing-removed", "nothing was removed that could be brought back",
                           "look at what is there with: yarn list"};
        }
        const std::string yarn = removed_yarn(database, removal);
        if (name_is_taken(database, yarn)) {
            Refusal taken = name_taken(yarn);
            taken.hint = "give the yarn that has the name now another one first: yarn edit NAME --name NEW";
            return taken;
        }
        const auto measurement = removed_measurement(database, removal);
        const Removal undone = measurement ? *measurement : Removal{yarn, std::nullopt};
        database.run("UPDATE measurement SET removed = NULL WHERE removed = ?1", removal);
        database.run("UPDATE yarn SET removed = NULL WHERE removed = ?1", removal);
        transaction.commit();
        return undone;
    });
}

}  // namespace ridgetally
