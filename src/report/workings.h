#pragma once

#include <string>

#include "advice/derivation.h"
#include "report/document.h"

namespace ridgetally {

/// Whether an answer shows how its figures came about.
enum class Why { hidden, shown };

/// "How each figure came about": name, value, formula, inputs and source of every figure; lengths in mm, cm
/// and in.
[[nodiscard]] std::string workings_text(const Workings& workings);

/// `[{"name", "value", "std", "unit", "formula", "inputs": [{"name", "value", "unit"}], "source"}]`; std only
/// where it is above zero, unit only where there is one.
[[nodiscard]] Document workings_document(const Workings& workings);

/// `[{"code", "message"}]`.
[[nodiscard]] Document reasons_document(const std::vector<Reason>& reasons);

/// One indented line or more a reason, with its code.
[[nodiscard]] std::string reasons_text(const std::vector<Reason>& reasons);

}  // namespace ridgetally
