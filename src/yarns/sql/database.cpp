#include "yarns/sql/database.h"

#include <exception>

namespace ridgetally::sql {
namespace {

[[noreturn]] void fail(sqlite3* database, int code) {
    throw Fault(code, database != nullptr ? sqlite3_errmsg(database) : sqlite3_errstr(code));
}

void require(sqlite3* database, int code) {
    if (code != SQLITE_OK) fail(database, code);
}

}  // namespace

Database::Database(const std::string& path, Missing missing, int busy_timeout_ms) {
    const int create = missing == Missing::is_made ? SQLITE_OPEN_CREATE : 0;
    sqlite3* raw = nullptr;
    const int code =
        sqlite3_open_v2(path.c_str(), &raw, SQLITE_OPEN_READWRITE | create | SQLITE_OPEN_EXRESCODE, nullptr);
    handle_.reset(raw);
    require(raw, code);
    configure(busy_timeout_ms);
}

Database::Database() {
    sqlite3* raw = nullptr;
    const int code =
        sqlite3_open_v2(":memory:", &raw, SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE, nullptr);
    handle_.reset(raw);
    require(raw, code);
    configure(0);
}

void Database::configure(int busy_timeout_ms) const {
    require(handle_.get(), sqlite3_busy_timeout(handle_.get(), busy_timeout_ms));
    // The file may come from elsewhere: nothing in its schema may run functions, and no statement may write
    // to the schema behind SQLite's back (sqlite.org/security.html).
    require(handle_.get(), sqlite3_db_config(handle_.get(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr));
    // A rollback journal, not a write-ahead log: writes are small and seldom, so that there is nothing to
    // gain, and the record stays one file that can be copied, lies on any kind of folder and can be read
    // where nothing can be written. EXTRA also syncs the folder, so that a committed change outlives a power
    // cut (sqlite.org/pragma.html#pragma_synchronous).
    script(
        "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA foreign_keys = ON;"
        "PRAGMA synchronous = EXTRA;");
}

void Database::script(Text text) const {
    require(handle_.get(), sqlite3_exec(handle_.get(), text.sql, nullptr, nullptr, nullptr));
}

void Database::copy_to(const std::string& path) const {
    const Database copy(path, Missing::is_made, 0);
    sqlite3_backup* backup = sqlite3_backup_init(copy.handle_.get(), "main", handle_.get(), "main");
    if (backup == nullptr) fail(copy.handle_.get(), sqlite3_extended_errcode(copy.handle_.get()));
    (void)sqlite3_backup_step(backup, -1);
    // A step that failed is reported again by the end.
    const int code = sqlite3_backup_finish(backup);
    if (code != SQLITE_OK) throw Fault(code, sqlite3_errstr(code));
}

Transaction::Transaction(const Database& database, Purpose purpose) : database_(database) {
    purpose == Purpose::writing ? database.script("BEGIN IMMEDIATE") : database.script("BEGIN");
}

Transaction::~Transaction() {
    if (!open_) return;
    try {
        database_.script("ROLLBACK");
    } catch (const Fault&) {
        // After some faults SQLite has already rolled back; the next to open the file rolls back otherwise.
        (void)std::current_exception();
    }
}

void Transaction::commit() {
    database_.script("COMMIT");
    open_ = false;
}

}  // namespace ridgetally::sql
