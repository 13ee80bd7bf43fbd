#pragma once

#include <string>

#include "core/outcome.h"

namespace ridgetally {

/// Copies the record at `path`, whose tables are of `version`, to PATH.schema-N.backup beside it, or to
/// PATH.schema-N.backup-2 and so on: no file is ever written over. The copy is whole or not there at all.
/// Gives the name of the copy. To be called while nothing else can write to the record. Refusal: io;
/// faults as sql::Fault.
[[nodiscard]] Outcome<std::string> write_backup(const std::string& path, int version);

}  // namespace ridgetally
