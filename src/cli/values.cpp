#include "cli/values.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "core/lower_case.h"
#include "core/quantity.h"

namespace ridgetally::values {
namespace {

[[noreturn]] void refuse(const std::string& text, const std::string& expected) {
    throw CLI::ValidationError("\"" + text + "\": " + expected);
}

/// As keys are written.
std::string lower(std::string text) {
    std::replace(text.begin(), text.end(), '_', '-');
    return lower_case(std::move(text));
}

/// Numbers between commas, at most `at_most` of them; what follows stands in `rest`.
struct NumberList {
    std::vector<double> numbers;
    std::string rest;
    bool good = true;
};

NumberList number_list(const std::string& text, std::size_t at_most) {
    NumberList list;
    std::size_t at = 0;
    while (at <= text.size() && list.numbers.size() < at_most) {
        const auto comma = std::min(text.find(',', at), text.size());
        const auto number = parse_number(std::string_view(text).substr(at, comma - at));
        if (!number) {
            list.good = false;
            return list;
        }
        list.numbers.push_back(*number);
        at = comma + 1;
    }
    if (at <= text.size()) list.rest = text.substr(at);
    return list;
}

double twice_area(const std::vector<PhotoPoint>& corners) {
    double sum = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const PhotoPoint& a = corners[i];
        const PhotoPoint& b = corners[(i + 1) % corners.size()];
        sum += a.x * b.y - b.x * a.y;
    }
    return std::abs(sum);
}

}  // namespace

StitchFamily stitch(const std::string& text) {
    const auto family = stitch_family_from(lower(text));
    if (!family) {
        refuse(text,
               "expected sc, sc-blo, sc-flo, hdc, hdc-blo, dc, tr or stockinette (US terms: UK double "
               "crochet is "
               "sc, half treble hdc, treble dc, double treble tr)");
    }
    return *family;
}

Worked worked(const std::string& text) {
    const auto value = worked_from(lower(text));
    if (!value) refuse(text, "expected flat (turned at the end of every row) or round");
    return *value;
}

LengthUnit ruler_unit(const std::string& text) {
    const std::string word = lower(text);
    if (word == "mm" || word == "cm") return LengthUnit::mm;
    if (word == "inch" || word == "in" || word == "inches") return LengthUnit::inch;
    refuse(text, "expected mm or inch");
}

SizeUnit size_unit(const std::string& text) {
    const std::string word = lower(text);
    if (word == "cm") return SizeUnit::cm;
    if (word == "in" || word == "inch" || word == "inches") return SizeUnit::inch;
    refuse(text, "expected cm or in");
}

Terms terms(const std::string& text) {
    const std::string word = lower(text);
    if (word == "us") return Terms::us;
    if (word == "uk") return Terms::uk;
    refuse(text, "expected us or uk");
}

TwoPointScale two_points(const std::string& text) {
    const char* expected =
        "expected X1,Y1,X2,Y2,LENGTH: two points in photo pixels and their distance, as in "
        "120,80,1740,95,16cm";
    const NumberList list = number_list(text, 4);
    const auto length = parse_length_mm(list.rest);
    if (!list.good || list.numbers.size() != 4 || !length) refuse(text, expected);
    const auto& n = list.numbers;
    if (n[0] == n[2] && n[1] == n[3]) refuse(text, "the two points are the same");
    return {{n[0], n[1]}, {n[2], n[3]}, *length};
}

std::vector<PhotoPoint> area(const std::string& text) {
    const NumberList list = number_list(text, std::numeric_limits<std::size_t>::max());
    if (!list.good || list.numbers.size() < 6 || list.numbers.size() % 2 != 0) {
        refuse(text, "expected X,Y,X,Y,...: at least three corners in photo pixels");
    }
    std::vector<PhotoPoint> corners;
    for (std::size_t i = 0; i < list.numbers.size(); i += 2) {
        corners.push_back({list.numbers[i], list.numbers[i + 1]});
    }
    if (twice_area(corners) < 1.0) refuse(text, "these corners enclose no area");
    return corners;
}

double degrees(const std::string& text) {
    std::string number = lower(text);
    for (const std::string unit : {"degrees", "deg", "\u00B0"}) {
        if (number.ends_with(unit)) number.erase(number.size() - unit.size());
    }
    const auto value = parse_number(number);
    if (!value || std::abs(*value) > 360.0)
        refuse(text, "expected degrees from -360 to 360, clockwise positive");
    return *value;
}

PatternRepeat repeat(const std::string& text) {
    constexpr double most = 200.0;  // wider than any printed repeat; larger is a typing mistake
    const std::string word = lower(text);
    const auto cross = word.find('x');
    const auto whole = [&](std::string_view part) {
        const auto value = parse_number(part);
        if (!value || *value != std::floor(*value) || *value < 1.0 || *value > most) {
            refuse(text, "expected SxR: stitches by rows of one repeat, as in 4x2");
        }
        return static_cast<int>(*value);
    };
    if (cross == std::string::npos) return {whole("none"), 1};
    const std::string_view both = word;
    return {whole(both.substr(0, cross)), whole(both.substr(cross + 1))};
}

double length_mm(const std::string& text) {
    const auto mm = parse_length_mm(text);
    if (!mm) refuse(text, "expected a length such as 3mm, 0.3cm or 1/8 in");
    return *mm;
}

double correction(const std::string& text) {
    // Soft tapes that were compared came out up to 1.2 % long (published comparison of household tapes); ten
    // times that is a typing mistake, not a tape.
    constexpr double most_off = 0.12;
    const auto bar = text.find_first_of(":/");
    std::optional<double> factor;
    if (bar == std::string::npos) {
        factor = parse_number(text);
    } else {
        const auto truth = parse_number(std::string_view(text).substr(0, bar));
        const auto nominal = parse_number(std::string_view(text).substr(bar + 1));
        if (truth && nominal && *nominal != 0.0) factor = *truth / *nominal;
    }
    if (!factor || !(std::abs(*factor - 1.0) <= most_off)) {
        refuse(text, "expected true over nominal length, between 0.88 and 1.12, as in 1.012 or 101.2:100");
    }
    return *factor;
}

std::size_t jobs(const std::string& text) {
    constexpr double most = 1024.0;  // more threads than any machine it will run on has cores
    const auto value = parse_number(text);
    if (!value || *value != std::floor(*value) || *value < 1.0 || *value > most) {
        refuse(text, "expected a whole number from 1 to 1024");
    }
    return static_cast<std::size_t>(*value);
}

}  // namespace ridgetally::values
