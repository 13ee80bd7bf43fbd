#include <cmath>

#include "catalog/hook_marks.h"
#include "core/units.h"
#include "report/advice.h"
#include "report/figures.h"
#include "report/phrases.h"
#include "report/table.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string hook_name(double mm, const Catalog& catalog) {
    const std::string marks = marks_of(catalog, mm);
    return plain_number(mm) + " mm" + (marks.empty() ? "" : " (" + marks + ")");
}

std::string of_100(double chance) { return fixed(100.0 * chance, 0) + " of 100"; }

std::string span_text(double span_mm) {
    if (span_mm == span_10cm_mm) return "10 cm";
    if (span_mm == span_4in_mm) return "4 in";
    return plain_number(span_mm) + " mm";
}

std::string first_line(const HookAdvice& advice, const Catalog& catalog) {
    const std::string in_use = advice.unchanged_hook
                                   ? " " + hook_name(advice.unchanged_hook->hook_mm, catalog)
                                   : " the hook you have";
    switch (advice.verdict) {
        case HookVerdict::keep:
            return "keep" + in_use + ".";
        case HookVerdict::unsure:
            return "unsure; measure better before you change" + in_use + ".";
        case HookVerdict::larger:
        case HookVerdict::smaller:
            break;
    }
    const std::string way(key_of(advice.verdict));
    if (advice.trial)
        return "try " + hook_name(advice.trial->hook_mm, catalog) + ", " + way + " than" + in_use + ".";
    return way + " than" + in_use + ".";
}

std::string chance_lines(const HookAdvice& advice) {
    std::string text =
        "Chance that a new swatch lands within " + plain_number(100.0 * advice.tolerance) + " %: ";
    if (!advice.trial) return paragraph("  ", text + of_100(advice.chance_within_tolerance) + " as you are.");
    text += of_100(advice.trial->chance) + " with " + plain_number(advice.trial->hook_mm) + " mm, " +
            of_100(advice.unchanged_hook->chance) + " with " + plain_number(advice.unchanged_hook->hook_mm) +
            " mm.";
    return paragraph("  ", text);
}

std::string response_line(const HookResponse& response) {
    return paragraph("  ", "Reckoned with stitch width as hook^" + fixed(response.exponent.value, 2) +
                               " (\u00B1 " + half_width(response.exponent, 2) + "; " + response.source +
                               ").");
}

std::string signed_percent(double share) {
    return (share < 0.0 ? "-" : "+") + fixed(100.0 * std::abs(share), 1) + " %";
}

std::vector<Cell> figures_row(const std::string& name, const Measured& made_per_100mm, double wanted,
                              const SizeError& error, double span_mm) {
    return {name, with_plus_minus(scaled(made_per_100mm, span_mm / span_10cm_mm), 1), plain_number(wanted),
            signed_percent(error.value), signed_percent(error.low95) + " to " + signed_percent(error.high95)};
}

std::string figures(const HookAdvice& advice, const HookRequest& request, const MadeGauge& made) {
    const double span_mm = request.want.span_mm;
    std::vector<std::vector<Cell>> rows = {
        figures_row("Stitches", made.stitches_per_100mm, request.want.stitches, advice.error, span_mm)};
    if (advice.rows)
        rows.push_back(
            figures_row("Rows", *made.rows_per_100mm, *request.want.rows, advice.rows->error, span_mm));
    return columns_text({"over " + span_text(span_mm), "yours", "wanted", "size", "95 % between"}, rows) +
           "  (size: + too large, - too small)\n";
}

std::string size_text(const Measured& mm, SizeUnit units) {
    const bool metric = units == SizeUnit::cm;
    return with_plus_minus(scaled(mm, metric ? 0.1 : 1.0 / mm_per_inch), metric ? 1 : 2) +
           (metric ? " cm" : " in");
}

std::string plain_size(double mm, SizeUnit units) {
    return units == SizeUnit::cm ? plain_number(mm / 10.0) + " cm" : plain_number(mm / mm_per_inch) + " in";
}

std::string unchanged_lines(const IfUnchanged& piece, SizeUnit units) {
    std::string text = plain_size(piece.wanted_width_mm, units) + " of the pattern's width would measure " +
                       size_text(piece.width_mm, units);
    if (piece.height_mm) {
        text += ", " + plain_size(*piece.wanted_height_mm, units) + " of its height " +
                size_text(*piece.height_mm, units);
    }
    text += "; for " + plain_size(piece.wanted_width_mm, units) + " you would need " +
            fixed(piece.stitches_for_width, 1) + " stitches.";
    return "If nothing changed:\n" + paragraph("  ", text);
}

}  // namespace

std::string advice_text(const HookAdvice& advice, const HookRequest& request, const MadeGauge& made,
                        const Catalog& catalog, const AdviceOptions& options) {
    std::string text = paragraph("Hook: ", first_line(advice, catalog));
    text += chance_lines(advice);
    if (advice.trial) text += response_line(advice.response);
    text += "\n";
    text += figures(advice, request, made) + "\n";
    text += unchanged_lines(advice.if_unchanged, options.units) + "\nReasons:\n";
    text += reasons_text(advice.reasons);
    if (options.why == Why::shown) text += workings_text(advice.workings);
    return text;
}

}  // namespace ridgetally
