#pragma once

#include <string>

#include "advice/yarn_needed.h"
#include "report/document.h"
#include "report/terms.h"
#include "report/workings.h"

namespace ridgetally {

/// Grams, length and balls for people; ounces and yards first where `units` are inches.
[[nodiscard]] std::string yarn_needed_text(const YarnNeed& need, const YarnRequest& request, SizeUnit units,
                                           Why why);

/// The document of `ridgetally yarn-needed`.
[[nodiscard]] Document yarn_needed_document(const YarnNeed& need, const YarnRequest& request, Why why);

}  // namespace ridgetally
