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

/// The part of the file of heads that is about hats.
void read_hat_practice(TableRow& file, HatPractice& hats);

/// An object with nominal, low, high and source, low <= nominal <= high, between `least` and `most`, mm.
[[nodiscard]] Limits read_limits(TableRow& row, const std::string& field, double least, double most);

/// An object with value and source.
[[nodiscard]] SourcedValue read_value(TableRow& row, const std::string& field, double least, double most);

/// An object with usual, low, high and source, low <= usual <= high.
[[nodiscard]] UsualRange read_usual(TableRow& row, const std::string& field, double least, double most);

}  // namespace ridgetally
