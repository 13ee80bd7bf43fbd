#pragma once

#include "core/outcome.h"
#include "yarns/sql/database.h"

namespace ridgetally {

/// Version of the tables this program reads and writes, kept in the file's user_version.
inline constexpr int schema_version = 2;

/// Marks the file as a record of this program ("RdgT"), so that another program's database is never taken for
/// one (sqlite.org/pragma.html#pragma_application_id).
inline constexpr int record_application_id = 0x52646754;

/// Gets a database ready to be used: makes the tables in an empty file, or brings those of an older version
/// up to this one; `path` is the file's, empty for a database in memory. Before tables that hold anything are
/// changed, a copy of the file is written beside it: PATH.schema-N.backup. All of it happens in one
/// transaction or not at all. Refusals: record-newer, not-a-record; faults as sql::Fault.
[[nodiscard]] Outcome<int> bring_up_to_date(const sql::Database& database, const std::string& path);

}  // namespace ridgetally
