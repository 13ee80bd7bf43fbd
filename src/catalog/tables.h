#pragma once

#include "catalog/catalog.h"
#include "catalog/table_row.h"

namespace ridgetally {

/// Readers of the single files; each throws TableFault.
void read_stitches(TableRow& file, Catalog& catalog);
void read_references(TableRow& file, Catalog& catalog);
void read_hooks(TableRow& file, Catalog& catalog);
void read_yarn_weights(TableRow& file, Catalog& catalog);
void read_heads(TableRow& file, Catalog& catalog);

/// An object with nominal, low, high and source, low <= nominal <= high, between `least` and `most`, mm.
[[nodiscard]] Limits read_limits(TableRow& row, const std::string& field, double least, double most);

}  // namespace ridgetally
