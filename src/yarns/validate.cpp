#include "yarns/validate.h"

#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "yarns/fault.h"
#include "yarns/fields.h"
#include "yarns/keys.h"

namespace ridgetally {
namespace {

/// Bytes that follow a first byte, and the range of the first of them; none for a byte that cannot begin.
struct Sequence {
    std::size_t more = 0;
    unsigned char low = 0x80;
    unsigned char high = 0xBF;
};

std::optional<Sequence> sequence_after(unsigned char first) {
    if (first >= 0x01 && first <= 0x7F) return Sequence{0};
    if (first >= 0xC2 && first <= 0xDF) return Sequence{1};
    if (first == 0xE0) return Sequence{2, 0xA0, 0xBF};
    if (first == 0xED) return Sequence{2, 0x80, 0x9F};
    if (first >= 0xE1 && first <= 0xEF) return Sequence{2};
    if (first == 0xF0) return Sequence{3, 0x90, 0xBF};
    if (first >= 0xF1 && first <= 0xF3) return Sequence{3};
    if (first == 0xF4) return Sequence{3, 0x80, 0x8F};
    return std::nullopt;
}

Refusal bad(std::string_view field, const std::string& why) {
    return {record_stage, "bad-value", std::string(field) + ": " + why, "correct the value"};
}

/// The first fault of any field.
class Faults {
  public:
    void operator()(std::string_view field, const std::string& text) {
        if (text.size() > longest_text) note(field, "longer than 100,000 bytes");
        if (!is_text(text)) note(field, "not well-formed UTF-8 text");
    }
    void operator()(std::string_view field, const std::optional<double>& value) {
        // Nothing a maker handles is smaller than a millionth of its unit or larger than a million of it.
        constexpr double least = 1e-6;
        constexpr double most = 1e6;
        const bool may_be_zero = field == "balls";
        if (!value || (may_be_zero && *value == 0.0)) return;
        if (!(*value >= least && *value <= most)) {
            note(field, may_be_zero ? "expected zero or more" : "expected a number above zero");
        }
    }
    void operator()(std::string_view field, const std::optional<int>& value) {
        if (value && (*value < 0 || *value > 7)) note(field, "expected a whole number from 0 to 7");
    }
    template <Keyed T>
    void operator()(std::string_view, const T&) {}
    template <Keyed T>
    void operator()(std::string_view, const std::optional<T>&) {}

    void note(std::string_view field, const std::string& why) {
        if (!first_) first_ = bad(field, why);
    }
    void require_day(std::string_view field, const std::string& text) {
        if (!is_day(text)) note(field, "expected a day such as 2026-11-25");
    }
    [[nodiscard]] const std::optional<Refusal>& first() const { return first_; }

  private:
    std::optional<Refusal> first_;
};

std::optional<int> digits(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || text.front() == '-') return std::nullopt;
    return value;
}

}  // namespace

bool is_text(std::string_view bytes) {
    for (std::size_t at = 0; at < bytes.size();) {
        const auto sequence = sequence_after(static_cast<unsigned char>(bytes[at++]));
        if (!sequence || bytes.size() - at < sequence->more) return false;
        for (std::size_t i = 0; i < sequence->more; ++i, ++at) {
            const auto byte = static_cast<unsigned char>(bytes[at]);
            const bool first = i == 0;
            if (byte < (first ? sequence->low : 0x80) || byte > (first ? sequence->high : 0xBF)) return false;
        }
    }
    return true;
}

bool is_day(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
    const auto year = digits(text.substr(0, 4));
    const auto month = digits(text.substr(5, 2));
    const auto day = digits(text.substr(8, 2));
    if (!year || !month || !day) return false;
    return std::chrono::year_month_day(std::chrono::year(*year),
                                       std::chrono::month(static_cast<unsigned>(*month)),
                                       std::chrono::day(static_cast<unsigned>(*day)))
        .ok();
}

std::string trimmed_name(std::string_view name) {
    constexpr std::string_view blanks = " \t\r\n";
    const auto first = name.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return std::string(name.substr(first, name.find_last_not_of(blanks) - first + 1));
}

Outcome<Yarn> checked(Yarn yarn) {
    yarn.name = trimmed_name(yarn.name);
    Faults faults;
    if (yarn.name.empty()) faults.note("name", "a yarn needs a name");
    if (yarn.name.size() > longest_name) faults.note("name", "longer than 1,000 bytes");
    visit_yarn(yarn, [&](std::string_view field, const auto& value) { faults(field, value); });
    faults.require_day("added", yarn.added);
    const BandGauge& band = yarn.band;
    if (band.stitches.has_value() != band.craft.has_value() ||
        band.stitches.has_value() != band.span_mm.has_value()) {
        faults.note("band_stitches", "the craft, the stitches and their span are told together");
    }
    if (band.rows && !band.stitches) faults.note("band_rows", "rows without stitches");
    if (faults.first()) return *faults.first();
    return yarn;
}

Outcome<Measurement> checked(Measurement measurement) {
    Faults faults;
    visit_measurement(measurement, [&](std::string_view field, const auto& value) { faults(field, value); });
    faults.require_day("taken", measurement.taken);
    const auto together = [&](std::string_view field, const auto& value, const auto& std) {
        if (value.has_value() != std.has_value())
            faults.note(field, "the value and its standard uncertainty are told together");
    };
    together("stitches_std", measurement.stitches_per_10cm, measurement.stitches_std);
    if (!measurement.report.empty() && !nlohmann::json::accept(measurement.report))
        faults.note("report", "no JSON document");
    together("rows_std", measurement.rows_per_10cm, measurement.rows_std);
    if (faults.first()) return *faults.first();
    return measurement;
}

}  // namespace ridgetally
