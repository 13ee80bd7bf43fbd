#include "report/text.h"

#include "core/units.h"
#include "report/explain.h"
#include "report/figures.h"
#include "report/phrases.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string rival_lines(const std::vector<RivalGauge>& rivals) {
    std::string text;
    for (const auto& rival : rivals_that_matter(rivals)) {
        std::string reading = fixed(rival.stitches_per_10cm, 1) + " stitches";
        if (rival.rows_per_10cm > 0.0) reading += " and " + fixed(rival.rows_per_10cm, 1) + " rows";
        text += paragraph("  - ", reading + " per 10 cm (" + fixed(100.0 * rival.score, 0) +
                                      " % as good as the reading above)");
    }
    if (text.empty()) return text;
    return "\nThe picture can also be read another way; count a few stitches by eye:\n" + text;
}

}  // namespace

std::string gauge_line(const GaugeOfFabric& gauge, const Catalog& catalog, const TextOptions& options) {
    const bool metric = options.units == SizeUnit::cm;
    const auto over_span = [&](const Measured& x) { return pattern_figure(metric ? x : per_4in(x)); };
    std::string stitch = "stitches";
    std::string in_stitch;
    if (gauge.family) {
        const StitchName& name = stitch_name(catalog, *gauge.family, options.terms);
        if (name.abbreviation == no_abbreviation) {
            in_stitch = " in " + name.name;
        } else {
            stitch = name.abbreviation;
        }
    }
    std::string line =
        capitalised(gauge_word(options.terms)) + ": " + over_span(gauge.stitches_per_10cm) + " " + stitch;
    if (gauge.rows_per_10cm) {
        line += " and " + over_span(*gauge.rows_per_10cm) + " " + std::string(row_word(gauge.worked));
    }
    return line + in_stitch + (metric ? " = 10 cm" : " = 4 in");
}

std::string gauge_line(const SwatchResult& result, const Catalog& catalog, const TextOptions& options) {
    return gauge_line(GaugeOfFabric{result.stitch.family, result.stitch.worked, result.stitches_per_10cm,
                                    result.rows_per_10cm},
                      catalog, options);
}

std::string swatch_text(const SwatchResult& result, const Catalog& catalog, const TextOptions& options) {
    std::string text = title_line(result.photo, result.photos);
    text += stitch_sentence(result.stitch, catalog, options.terms) + "\n\n";
    text += gauge_row("Stitches", result.stitches_per_10cm, options.units);
    if (result.rows_per_10cm) {
        text += gauge_row(capitalised(row_word(result.stitch.worked)), *result.rows_per_10cm, options.units);
    } else {
        text += "  Rows      not resolved in this photo\n";
    }
    text += "  (the true value lies within the \u00B1 in 95 of 100 photos)\n\n";
    TextOptions other = options;
    other.units = options.units == SizeUnit::cm ? SizeUnit::inch : SizeUnit::cm;
    text += "For the pattern:\n  " + gauge_line(result, catalog, options) + "\n  " +
            gauge_line(result, catalog, other) + "\n\n";
    text += counted_line(result.overlay, result.stitch.worked);
    text += whole_swatch_line(result, options.units);
    text += paragraph("Scale: ", scale_sentence(result.scale, catalog, options.units));
    text += corrected_line(result.corrected);
    text += rival_lines(result.rivals);
    text += warning_lines(result.warnings);
    if (options.detail == Detail::explained) text += explanation(result);
    return text;
}

std::string scale_text(const ScaleReport& report, const Catalog& catalog, const TextOptions& options) {
    const ScaleResult& scale = report.scale;
    std::string text = title_line(report.photo, {});
    text += capitalised(scale_sentence(scale, catalog, options.units)) + "\n";
    text += "  " + with_plus_minus(scale.px_per_mm, 3) + " pixels per mm in the middle of it\n";
    if (scale.marks.size() >= 2) {
        const double from = scale.marks.front().position_mm;
        const double to = scale.marks.back().position_mm;
        const bool metric = scale.unit == LengthUnit::mm;
        const double unit_mm = metric ? 10.0 : mm_per_inch;
        text += "  " + std::to_string(scale.marks.size()) + " marks read, from " + fixed(from / unit_mm, 2) +
                " to " + fixed(to / unit_mm, 2) + (metric ? " cm" : " in") + "\n";
    }
    text += warning_lines(report.warnings);
    if (options.detail == Detail::explained) text += explanation(report);
    return text;
}

std::string refusal_text(const Refusal& refusal, const std::string& file) {
    std::string text = "ridgetally: " + (file.empty() ? "" : file + ": ") + refusal.message;
    if (!refusal.hint.empty()) text += "\n  try: " + refusal.hint;
    return text + "\n";
}

}  // namespace ridgetally
