#include "report/figures.h"
#include "report/one_line.h"
#include "report/table.h"
#include "report/wrap.h"
#include "report/yarn_text.h"
#include "report/yarn_words.h"

namespace ridgetally {
namespace {

constexpr std::size_t name_columns = 24;

std::string wanted_text(const GaugeWanted& wanted, SizeUnit units) {
    const auto figure = [&](double per_10cm) {
        return plain_number(over_span(exact(per_10cm), units).value);
    };
    std::string text = figure(wanted.stitches_per_10cm) + " stitches";
    if (wanted.rows_per_10cm) text += " and " + figure(*wanted.rows_per_10cm) + " rows";
    return text + " over " + span_text(units) + ", within " + plain_number(100.0 * wanted.tolerance) +
           " % of the size";
}

std::string gauge_text(const HookGauge& gauge, SizeUnit units) {
    std::string text = with_plus_minus(over_span(gauge.stitches_per_10cm, units), 1);
    if (gauge.rows_per_10cm) text += " x " + with_plus_minus(over_span(*gauge.rows_per_10cm, units), 1);
    return text;
}

/// Hook, stitch and state as one phrase.
std::string way_text(const GaugeKind& kind, const Catalog& catalog, Terms terms) {
    std::string text = stitch_text(kind, catalog, terms);
    if (kind.state) text += ", " + state_text(kind.state);
    return text;
}

/// How much is missing, or that there is enough.
std::string enough_text(const Match& match) {
    if (match.enough != Sufficiency::no) return std::string(word_of(match.enough));
    return "no, " + balls_figure(*match.balls_needed - *match.yarn.balls) + " balls short";
}

}  // namespace

std::string_view word_of(Fit fit) {
    switch (fit) {
        case Fit::sure:
            return "sure";
        case Fit::likely:
            return "likely";
        case Fit::possible:
            break;
    }
    return "possible";
}

std::string_view word_of(Sufficiency enough) {
    switch (enough) {
        case Sufficiency::yes:
            return "yes";
        case Sufficiency::no:
            return "no";
        case Sufficiency::unknown:
        case Sufficiency::not_asked:
            break;
    }
    return "not known";
}

std::string matches_text(const std::vector<Match>& matches, const GaugeWanted& wanted, const Catalog& catalog,
                         const TextOptions& options) {
    const std::string target = wanted_text(wanted, options.units);
    if (matches.empty()) {
        return paragraph(
            "", "No yarn in the record is known to give " + target +
                    ". Widen --tolerance, look at used-up yarns too with --all, or swatch another one.");
    }
    std::vector<std::string> headings = {"fit", "yarn", "hook", "stitch", "gauge", "left"};
    if (wanted.need) headings.emplace_back("enough");
    std::vector<std::vector<Cell>> rows;
    for (const auto& match : matches) {
        rows.push_back({std::string(word_of(match.fit)), shortened(one_line(match.yarn.name), name_columns),
                        hook_text(match.gauge.kind.hook_mm),
                        way_text(match.gauge.kind, catalog, options.terms),
                        gauge_text(match.gauge, options.units), short_left_text(match.yarn)});
        if (wanted.need) rows.back().emplace_back(enough_text(match));
    }
    const std::string more = matches.size() < wanted.most
                                 ? ""
                                 : "  (the best " + std::to_string(wanted.most) + "; more with --most)\n";
    return paragraph("", "Yarns that give " + target + ":") + columns_text(headings, rows) + more +
           paragraph(
               "  ",
               "(sure: the whole 95 % interval is within; likely: the value is; possible: only a part of the "
               "interval is. Work a swatch before you begin.)");
}

}  // namespace ridgetally
