#include "yarns/schema.h"

#include <array>
#include <string>

#include "yarns/backup.h"
#include "yarns/fault.h"
#include "yarns/migrations.h"
#include "yarns/sql/views.h"

namespace ridgetally {
namespace {

using Step = void (*)(const sql::Database&);

/// The step at i leads from version i to i + 1.
constexpr std::array<Step, schema_version> steps = {migrations::make_version_1,
                                                    migrations::crowns_and_pieces};

int number_of(const sql::Database& database, sql::Text pragma) {
    sql::Statement statement = database.query(pragma);
    return statement.step() ? static_cast<int>(statement.whole(0)) : 0;
}

/// What lies in the file.
struct Contents {
    int version = 0;
    int application_id = 0;
    bool empty = true;
};

Contents contents_of(const sql::Database& database) {
    return {number_of(database, "PRAGMA user_version"), number_of(database, "PRAGMA application_id"),
            number_of(database, "SELECT count(*) FROM sqlite_schema") == 0};
}

Outcome<int> checked_version(const Contents& contents, const std::string& path) {
    if (contents.empty && contents.version == 0 && contents.application_id == 0) return 0;
    if (contents.application_id != record_application_id) {
        return Refusal{record_stage, "not-a-record", path + ": this is another program's database",
                       "name a file of its own with --record"};
    }
    if (contents.version > schema_version) {
        return Refusal{record_stage, "record-newer",
                       path +
                           ": the record was written by a newer version of this program (tables of version " +
                           std::to_string(contents.version) + ", this program knows " +
                           std::to_string(schema_version) + ")",
                       "use the newer program; the file is left as it is"};
    }
    if (contents.version < 1) {
        return Refusal{record_stage, "record-damaged",
                       path + ": the record has lost the version of its tables",
                       "the file is left as it is: keep it, and put a copy or a backup in its place"};
    }
    return contents.version;
}

/// A damaged record is not changed: a step could lose what might still be saved.
void require_sound(const sql::Database& database) {
    auto row = database.query("PRAGMA quick_check(1)");
    const std::string found = row.step() ? row.text(0) : "no answer of the check";
    if (found != "ok") throw sql::Fault(SQLITE_CORRUPT, found);
}

Outcome<int> migrated(const sql::Database& database, const std::string& path) {
    // Without the lock first: most of the time there is nothing to do, and reading must not need to write.
    auto version = checked_version(contents_of(database), path);
    if (!version || *version == schema_version) return version;

    sql::Transaction transaction(database, sql::Purpose::writing);
    version = checked_version(contents_of(database), path);
    if (!version || *version == schema_version) return version;
    if (*version > 0) require_sound(database);
    if (*version > 0 && !path.empty()) {
        if (const auto backup = write_backup(path, *version); !backup) return backup.refusal();
    }
    for (auto step = static_cast<std::size_t>(*version); step < steps.size(); ++step)
        steps.at(step)(database);
    transaction.commit();
    return schema_version;
}

}  // namespace

Outcome<int> bring_up_to_date(const sql::Database& database, const std::string& path) {
    auto version = migrated(database, path);
    if (version) sql::make_views(database);
    return version;
}

}  // namespace ridgetally
