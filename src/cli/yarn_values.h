#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "report/label_sheet.h"
#include "yarns/import.h"
#include "yarns/search.h"
#include "yarns/yarn.h"

/// Values of the yarn commands' options, as those of values.h.
namespace ridgetally::values {

/// "2 1/2", "2½ balls", "40g", "1.75oz", "120m", "90yd". Zero and "none" are no yarn at all.
[[nodiscard]] Amount amount(const std::string& text);

/// An amount, or an area of fabric: "900cm2", "30x30cm".
[[nodiscard]] Need need(const std::string& text);

/// A mass in grams, with its unit or without.
[[nodiscard]] double mass_g(const std::string& text);

/// A length of yarn in metres: "120m", "130 yd". A bare number is metres.
[[nodiscard]] double yarn_length_m(const std::string& text);

/// "crochet:14x16@4.5mm", "knit:22x28/4in": craft, gauge and, if told, hook or needle in mm. The span is 10
/// cm unless told otherwise.
[[nodiscard]] BandGauge band(const std::string& text);

/// "5%": above 0 to 50 %.
[[nodiscard]] double size_share(const std::string& text);

/// "off-hook", "relaxed", "washed".
[[nodiscard]] FabricState fabric_state(const std::string& text);

/// "2026-11-25".
[[nodiscard]] std::string day(const std::string& text);

/// "12": the number of a measurement.
[[nodiscard]] std::int64_t number(const std::string& text);

/// "refused", "kept", "replaced".
[[nodiscard]] Existing existing(const std::string& text);

/// "a4", "letter".
[[nodiscard]] SheetSize sheet(const std::string& text);

}  // namespace ridgetally::values
