#pragma once

#include "yarns/sql/database.h"

namespace ridgetally::sql {

/// Makes two views for this connection, of what is not removed, with the fields in the order of fields.h:
/// present_yarn (id, then the fields) and present_measurement (number, yarn, then the fields).
void make_views(const Database& database);

/// Columns of the views; what a query adds comes after them.
inline constexpr int present_yarn_columns = 16;
inline constexpr int present_measurement_columns = 20;

}  // namespace ridgetally::sql
