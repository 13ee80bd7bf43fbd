#pragma once

#include "yarns/measurement.h"
#include "yarns/sql/database.h"
#include "yarns/yarn.h"

/// Yarns and measurements as columns, in the order of fields.h. Used inside this layer only.
namespace ridgetally::sql {

/// Binds the fields to the parameters from `first` on; gives the index after the last.
int bind_yarn(Statement& statement, int first, const Yarn& yarn);
int bind_measurement(Statement& statement, int first, const Measurement& measurement);

/// Reads the fields from the columns from `first` on. Words that this program does not know: Fault, as of a
/// damaged file.
[[nodiscard]] Yarn read_yarn(const Statement& statement, int first);
/// All but the report.
[[nodiscard]] Measurement read_measurement(const Statement& statement, int first);

}  // namespace ridgetally::sql
