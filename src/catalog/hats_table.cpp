#include "catalog/tables.h"

namespace ridgetally {
namespace {

TradeSize read_size(TableRow& row) {
    TradeSize size;
    size.list = row.text("list");
    size.name = row.text("name");
    row.call(size.name);
    TableRow head = row.child("head_mm");
    size.head_low_mm = head.number("low", 150.0, 800.0);
    size.head_high_mm = head.number("high", size.head_low_mm, 800.0);
    head.finish();
    size.source = row.text("source");
    row.finish();
    return size;
}

EaseRule read_ease_rule(TableRow& row) {
    EaseRule rule;
    rule.who = row.text("who");
    rule.low = row.number("low", -0.5, 0.5);
    rule.high = row.number("high", rule.low, 0.5);
    rule.source = row.text("source");
    row.finish();
    return rule;
}

HeightRule read_height_rule(TableRow& row) {
    HeightRule rule;
    rule.name = row.text("name");
    rule.share_of_head = row.number("share_of_head", 0.1, 1.0);
    rule.plus_low_mm = row.number("plus_low_mm", 0.0, 200.0);
    rule.plus_high_mm = row.number("plus_high_mm", rule.plus_low_mm, 200.0);
    rule.source = row.text("source");
    row.finish();
    return rule;
}

Caution read_caution(TableRow& row) {
    Caution caution{row.text("code"), row.text("text"), row.text("source")};
    row.finish();
    return caution;
}

}  // namespace

void read_hat_practice(TableRow& file, HatPractice& hats) {
    for (auto& row : file.children("trade_sizes")) hats.sizes.push_back(read_size(row));
    hats.ease = read_usual(file, "ease", -0.5, 0.5);
    for (auto& row : file.children("ease_rules")) hats.ease_rules.push_back(read_ease_rule(row));
    for (auto& row : file.children("height_rules")) hats.height_rules.push_back(read_height_rule(row));
    if (hats.height_rules.empty()) file.fail("height_rules", "must have a rule");
    for (auto& row : file.children("cautions")) hats.cautions.push_back(read_caution(row));
    if (hats.cautions.empty()) file.fail("cautions", "must have a caution");
}

}  // namespace ridgetally
