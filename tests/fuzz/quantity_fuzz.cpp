#include <cmath>

#include "advice/gauge_text.h"
#include "core/amount.h"
#include "core/quantity.h"
#include "fuzz_target.h"

namespace {

using ridgetally::fuzz::require;

/// Documented of lengths, masses and areas: finite and above zero, or none.
void require_above_zero(const std::optional<double>& value) {
    require(!value || (std::isfinite(*value) && *value > 0.0));
}

}  // namespace

/// Quantities as people type them: "6 1/4 in", "225 cm2", "13x16 per 10 cm".
int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace ridgetally;
    const auto text = fuzz::text_of({data, size});
    require_above_zero(parse_length_mm(text));
    require_above_zero(parse_mass_g(text));
    require_above_zero(parse_area_mm2(text));
    const auto sides = parse_sides_mm(text);
    if (sides) {
        require_above_zero(sides->first);
        require_above_zero(sides->second);
    }
    const auto share = parse_percent(text);
    require(!share || std::isfinite(*share));
    const auto number = parse_number(text);
    require(!number || std::isfinite(*number));
    const auto plain = amount(in_plain_characters(text));
    require(!plain || std::isfinite(*plain));
    (void)parse_pair(text);
    const auto gauge = parse_gauge(text);
    if (!gauge) return 0;
    require(gauge->stitches.value >= 0.5 && gauge->stitches.value <= 200.0);
    require(!gauge->rows || (gauge->rows->value >= 0.5 && gauge->rows->value <= 200.0));
    require(!gauge->span_mm || (*gauge->span_mm >= 10.0 && *gauge->span_mm <= 1000.0));
    return 0;
}
