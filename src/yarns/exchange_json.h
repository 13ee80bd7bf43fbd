#pragma once

#include <string_view>
#include <vector>

#include "yarns/import.h"

namespace ridgetally {

/// What a document of the schema "ridgetally.yarns/1" holds. Refusals: bad-document, bad-value.
[[nodiscard]] Outcome<std::vector<IncomingYarn>> incoming_from_json(std::string_view json);

}  // namespace ridgetally
