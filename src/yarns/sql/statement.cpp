#include "yarns/sql/database.h"

namespace ridgetally::sql {

Statement::Statement(sqlite3* database, Text text) : database_(database) {
    sqlite3_stmt* raw = nullptr;
    const int code = sqlite3_prepare_v2(database, text.sql, -1, &raw, nullptr);
    statement_.reset(raw);
    require(code);
}

void Statement::require(int code) const {
    if (code != SQLITE_OK) throw Fault(code, sqlite3_errmsg(database_));
}

void Statement::bind(int index, std::int64_t value) {
    require(sqlite3_bind_int64(statement_.get(), index, value));
}

void Statement::bind(int index, double value) {
    require(sqlite3_bind_double(statement_.get(), index, value));
}

void Statement::bind(int index, std::string_view value) {
    const char* bytes = value.data() != nullptr ? value.data() : "";
    require(sqlite3_bind_text64(statement_.get(), index, bytes, value.size(), SQLITE_TRANSIENT, SQLITE_UTF8));
}

void Statement::bind(int index, std::nullopt_t nothing) {
    (void)nothing;
    require(sqlite3_bind_null(statement_.get(), index));
}

bool Statement::step() {
    const int code = sqlite3_step(statement_.get());
    if (code == SQLITE_ROW) return true;
    if (code == SQLITE_DONE) return false;
    throw Fault(code, sqlite3_errmsg(database_));
}

void Statement::finish() {
    while (step()) {
    }
}

void Statement::reset() {
    // The fault of the last step was already thrown there.
    (void)sqlite3_reset(statement_.get());
    require(sqlite3_clear_bindings(statement_.get()));
}

bool Statement::is_null(int column) const {
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}

std::int64_t Statement::whole(int column) const { return sqlite3_column_int64(statement_.get(), column); }

double Statement::real(int column) const { return sqlite3_column_double(statement_.get(), column); }

std::string Statement::text(int column) const {
    const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_.get(), column));
    if (bytes == nullptr) return {};
    return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column))};
}

}  // namespace ridgetally::sql
