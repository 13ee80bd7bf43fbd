#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/outcome.h"
#include "yarns/measurement.h"
#include "yarns/yarn.h"

/// Yarns and measurements as JSON: the contract "ridgetally.yarns/1". Fields that were not told are absent;
/// keys may be added, none renamed or dropped.
namespace ridgetally {

/// Keys keep the order they were written in.
using YarnDocument = nlohmann::ordered_json;

/// Value of "schema".
inline constexpr const char* yarns_schema = "ridgetally.yarns/1";

[[nodiscard]] YarnDocument yarn_document(const Yarn& yarn);

/// With its number, and the report as it was made.
[[nodiscard]] YarnDocument measurement_document(const StoredMeasurement& stored);

/// The other way. Refusals: bad-document, which names the field that is missing or of the wrong kind;
/// bad-value. Unknown keys are refused: they would be lost.
[[nodiscard]] Outcome<Yarn> yarn_from(const YarnDocument& document);
[[nodiscard]] Outcome<StoredMeasurement> measurement_from(const YarnDocument& document);

/// Text as JSON. Refusal: bad-document.
[[nodiscard]] Outcome<YarnDocument> parse_document(std::string_view json);

}  // namespace ridgetally
