#pragma once

#include <string>

#include "core/outcome.h"
#include "yarns/sql/database.h"
#include "yarns/yarn.h"

/// Looking up and inserting yarns inside a transaction of the caller. Used inside this layer only; faults are
/// thrown as sql::Fault.
namespace ridgetally {

[[nodiscard]] Outcome<StoredYarn> yarn_named(const sql::Database& database, const std::string& name);
[[nodiscard]] bool name_is_taken(const sql::Database& database, const std::string& name);
[[nodiscard]] Refusal name_taken(const std::string& name);
[[nodiscard]] std::int64_t insert_yarn(const sql::Database& database, const Yarn& yarn);
void update_yarn(const sql::Database& database, std::int64_t id, const Yarn& yarn);

}  // namespace ridgetally
