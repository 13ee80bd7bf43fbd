#include "report/yarn_needed.h"

#include "core/trade_units.h"
#include "report/document_parts.h"
#include "report/figures.h"
#include "report/table.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string piece_lines(const YarnNeed& need, const YarnRequest& request) {
    std::vector<std::vector<Cell>> rows;
    for (std::size_t i = 0; i < request.pieces.size(); ++i) {
        const auto& piece = request.pieces[i];
        auto& row = rows.emplace_back();
        row.emplace_back(piece.name);
        row.emplace_back(static_cast<double>(piece.count));
        row.emplace_back(with_plus_minus(need.each_g[i], 0) + " g");
    }
    return columns_text({"piece", "how many", "each"}, rows);
}

/// Where the figures come from.
std::string swatch_line(const WeighedPiece& weighed) {
    return paragraph("From: ", with_plus_minus(weighed.mass_g, 1) + " g of yarn in " +
                                   with_plus_minus(scaled(weighed.area_mm2, 1.0 / mm2_per_cm2), 0) +
                                   " cm2 of fabric (" + weighed.source + ").");
}

std::string amounts(const YarnNeed& need, SizeUnit units) {
    const bool metric = units == SizeUnit::cm;
    const std::string grams = fixed(need.mass_with_margin_g, 0) + " g";
    const std::string ounces = fixed(need.mass_with_margin_g / g_per_ounce, 1) + " oz";
    std::string text = metric ? grams + " (" + ounces + ")" : ounces + " (" + grams + ")";
    if (need.length_with_margin_mm) {
        const std::string metres = fixed(*need.length_with_margin_mm / mm_per_m, 0) + " m";
        const std::string yards = fixed(*need.length_with_margin_mm / mm_per_yard, 0) + " yd";
        text += ", " + (metric ? metres + " (" + yards + ")" : yards + " (" + metres + ")");
    }
    if (need.balls_to_have)
        text += ", " + std::to_string(*need.balls_to_have) + (need.balls_to_have == 1 ? " ball" : " balls") +
                " (" + fixed(*need.balls_with_margin, 2) + ")";
    return text + ".";
}

std::string stock_line(const YarnNeed& need) {
    const std::string have = fixed(*need.stock_g, 0) + " g";
    switch (*need.enough) {
        case Enough::yes:
            return "enough: you have " + have + ".";
        case Enough::barely:
            return "close: you have " + have + ", which may or may not do.";
        case Enough::no:
            break;
    }
    return "not enough: you have " + have + ".";
}

}  // namespace

std::string yarn_needed_text(const YarnNeed& need, const YarnRequest& request, SizeUnit units, Why why) {
    std::string text = piece_lines(need, request) + "\n";
    text +=
        paragraph("Needed: ", with_plus_minus(need.mass_g, 0) + " g; with " +
                                  plain_number(100.0 * need.margin) + " % margin " + amounts(need, units));
    if (need.mass_per_100cm2_g) text += swatch_line(*request.weighed);
    if (need.enough) text += paragraph("Stock: ", stock_line(need));
    if (!need.reasons.empty()) text += "\nTake care:\n" + reasons_text(need.reasons);
    if (why == Why::shown) text += workings_text(need.workings);
    return text;
}

Document yarn_needed_document(const YarnNeed& need, const YarnRequest& request, Why why) {
    Document document = document_head("yarn-needed");
    Document pieces = Document::array();
    for (std::size_t i = 0; i < request.pieces.size(); ++i) {
        Document piece = {{"name", request.pieces[i].name}, {"count", request.pieces[i].count}};
        if (request.pieces[i].area_mm2)
            piece["area_cm2"] = rounded(*request.pieces[i].area_mm2 / mm2_per_cm2);
        piece["each_g"] = measured_document(need.each_g[i]);
        pieces.push_back(piece);
    }
    Document block = {{"pieces", pieces},
                      {"mass_g", measured_document(need.mass_g)},
                      {"margin", rounded(need.margin)},
                      {"mass_with_margin_g", rounded(need.mass_with_margin_g)}};
    if (need.mass_per_100cm2_g) block["mass_per_100cm2_g"] = rounded(*need.mass_per_100cm2_g);
    if (need.mass_per_100cm2_g)
        block["swatch"] = {
            {"mass_g", measured_document(request.weighed->mass_g)},
            {"area_cm2", measured_document(scaled(request.weighed->area_mm2, 1.0 / mm2_per_cm2))},
            {"source", request.weighed->source}};
    if (need.length_with_margin_mm)
        block["length_with_margin_m"] = rounded(*need.length_with_margin_mm / mm_per_m);
    if (need.balls_with_margin) block["balls_with_margin"] = rounded(*need.balls_with_margin);
    if (need.balls_to_have) block["balls_to_have"] = *need.balls_to_have;
    if (need.stock_g) block["stock_g"] = rounded(*need.stock_g);
    if (need.enough) block["enough"] = key_of(*need.enough);
    block["reasons"] = reasons_document(need.reasons);
    if (why == Why::shown) block["why"] = workings_document(need.workings);
    document["yarn_needed"] = block;
    return document;
}

}  // namespace ridgetally
