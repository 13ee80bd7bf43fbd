#pragma once

#include "yarns/sql/database.h"

/// One function a step of the schema; each ends by setting user_version. They run inside a transaction that
/// the caller holds.
namespace ridgetally::migrations {

/// Makes the first tables in an empty file.
void make_version_1(const sql::Database& database);

/// From 1 to 2: measurements are of swatches, crowns or whole pieces; crowns have a diameter, rounds and the
/// stitches of the last of them.
void crowns_and_pieces(const sql::Database& database);

}  // namespace ridgetally::migrations
