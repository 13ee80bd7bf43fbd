#include "report/crown_text.h"

#include "report/checks.h"
#include "report/figures.h"
#include "report/phrases.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string other_size(const Measured& mm, SizeUnit units) {
    return size_figure(mm, units == SizeUnit::cm ? SizeUnit::inch : SizeUnit::cm);
}

std::string diameter_lines(const CrownResult& result, SizeUnit units) {
    std::string text = "  Across     " + size_figure(result.diameter_mm, units) + "   (" +
                       other_size(result.diameter_mm, units) + ")\n";
    text += "  Narrowest  " + size_figure(result.diameter_min_mm, units) + "\n";
    text += "  Widest     " + size_figure(result.diameter_max_mm, units) + "\n";
    return text + "  (the true value lies within the \u00B1 in 95 of 100 photos)\n\n";
}

std::string count_text(const CountedWhole& count) {
    std::string text = fixed(count.count.value, 0);
    if (count.least != count.most)
        text += "   (may be " + std::to_string(count.least) + " to " + std::to_string(count.most) + ")";
    return text;
}

std::string count_lines(const CrownResult& result, SizeUnit units) {
    std::string text;
    if (result.rounds) text += "  Rounds     " + count_text(*result.rounds) + "\n";
    if (result.last_round_stitches)
        text += "  Last round " + count_text(*result.last_round_stitches) + " stitches\n";
    for (std::size_t k = 1; k < result.round_stitches.size(); ++k)
        text +=
            "  " + std::to_string(k) + " before   " + count_text(result.round_stitches[k]) + " stitches\n";
    if (!text.empty()) text += "\n";
    if (result.stitches_per_10cm) text += gauge_row("Stitches", *result.stitches_per_10cm, units);
    if (result.rounds_per_10cm) text += gauge_row("Rounds", *result.rounds_per_10cm, units);
    if (result.stitches_per_10cm)
        text += "  (work in the round often differs from a flat swatch of the same maker)\n\n";
    return text;
}

}  // namespace

std::string crown_text(const CrownResult& result, const std::vector<CrownCheck>& checks,
                       const Catalog& catalog, const TextOptions& options) {
    std::string text = title_line(result.photo, result.photos) + "\n";
    text += diameter_lines(result, options.units);
    text += count_lines(result, options.units);
    text += check_lines(checks);
    text += paragraph("Scale: ", scale_sentence(result.scale, catalog, options.units));
    text += corrected_line(result.corrected);
    return text + warning_lines(result.warnings);
}

}  // namespace ridgetally
