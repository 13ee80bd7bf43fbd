#include "report/explain.h"

#include <algorithm>
#include <string_view>

#include "report/figures.h"

namespace ridgetally {
namespace {

std::string budget_lines(std::string_view quantity, const Measured& x) {
    std::vector<Contribution> parts = x.contributions;
    std::stable_sort(parts.begin(), parts.end(), [](const Contribution& a, const Contribution& b) {
        return a.relative_std > b.relative_std;
    });
    double variance = 0.0;
    for (const auto& part : parts) variance += part.relative_std * part.relative_std;
    std::string text = "  " + std::string(quantity) + ": standard uncertainty " +
                       fixed(100.0 * x.relative_std(), 2) + " %, made of\n";
    for (const auto& part : parts) {
        const double share = variance > 0.0 ? part.relative_std * part.relative_std / variance : 0.0;
        text += "    " + fixed(100.0 * part.relative_std, 2) + " %  " + part.name + " (" +
                fixed(100.0 * share, 0) + " % of the variance)\n";
    }
    return text;
}

std::string rival_scores(const std::vector<RivalGauge>& rivals) {
    if (rivals.empty()) return "  No other reading of the fabric came into question.\n";
    std::string text = "  Other readings that were weighed (the chosen one has score 1):\n";
    for (const auto& rival : rivals) {
        text += "    " + fixed(rival.stitches_per_10cm, 1) + " stitches, " + fixed(rival.rows_per_10cm, 1) +
                " rows per 10 cm: score " + fixed(rival.score, 2) + "\n";
    }
    return text;
}

constexpr std::string_view heading = "\nWhy the interval is what it is:\n";

}  // namespace

std::string explanation(const SwatchResult& result) {
    std::string text(heading);
    text += budget_lines("stitches", result.stitches_per_10cm);
    if (result.rows_per_10cm) text += budget_lines("rows", *result.rows_per_10cm);
    return text + rival_scores(result.rivals);
}

std::string explanation(const ScaleReport& report) {
    return std::string(heading) + budget_lines("pixels per mm", report.scale.px_per_mm);
}

}  // namespace ridgetally
