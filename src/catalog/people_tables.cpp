#include "catalog/tables.h"

namespace ridgetally {
namespace {

OpenRange read_range(TableRow row, double least, double most) {
    OpenRange range;
    if (row.has("low")) range.low = row.number("low", least, most);
    if (row.has("high")) range.high = row.number("high", range.low.value_or(least), most);
    range.source = row.text("source");
    row.finish();
    return range;
}

YarnWeight read_yarn_weight(TableRow& row) {
    YarnWeight weight;
    weight.category = row.whole("category", 0, 7);
    weight.name = row.text("name");
    row.call(weight.name);
    weight.uk_name = row.text("uk_name");
    weight.knit_stitches_4in = read_range(row.child("knit_stitches_4in"), 1.0, 60.0);
    weight.needle_mm = read_range(row.child("needle_mm"), 0.5, 60.0);
    weight.crochet_stitches_4in = read_range(row.child("crochet_stitches_4in"), 1.0, 60.0);
    weight.hook_mm = read_range(row.child("hook_mm"), 0.5, 60.0);
    weight.wraps_per_inch = read_range(row.child("wraps_per_inch"), 0.5, 60.0);
    if (row.has("yards_per_pound"))
        weight.yards_per_pound = read_range(row.child("yards_per_pound"), 50.0, 20000.0);
    weight.source = row.text("source");
    row.finish();
    return weight;
}

HeadPercentiles read_percentiles(TableRow row) {
    HeadPercentiles heads;
    heads.p3_mm = row.number("p3", 200.0, 700.0);
    heads.p50_mm = row.number("p50", heads.p3_mm, 700.0);
    heads.p97_mm = row.number("p97", heads.p50_mm, 700.0);
    row.finish();
    return heads;
}

ChildHeads read_child(TableRow& row) {
    ChildHeads heads;
    heads.age_months = row.whole("age_months", 0, 240);
    heads.boys = read_percentiles(row.child("boys_mm"));
    heads.girls = read_percentiles(row.child("girls_mm"));
    heads.source = row.text("source");
    row.finish();
    return heads;
}

AdultHeads read_adults(TableRow& row) {
    AdultHeads heads;
    heads.who = row.text("who");
    heads.count = row.whole("count", 1, 10000000);
    heads.mean_mm = row.number("mean_mm", 400.0, 800.0);
    heads.std_mm = row.number("std_mm", 1.0, 100.0);
    heads.p5_mm = row.number("p5_mm", 400.0, heads.mean_mm);
    heads.p50_mm = row.number("p50_mm", heads.p5_mm, 800.0);
    heads.p95_mm = row.number("p95_mm", heads.p50_mm, 800.0);
    heads.source = row.text("source");
    row.finish();
    return heads;
}

YarnUse read_use(TableRow& row) {
    YarnUse use{row.text("stitch"), row.number("m_per_100cm2", 0.1, 200.0), row.text("source")};
    row.finish();
    return use;
}

}  // namespace

void read_yarn_weights(TableRow& file, Catalog& catalog) {
    for (auto& row : file.children("yarn_weights")) {
        catalog.yarn_weights.push_back(read_yarn_weight(row));
        if (catalog.yarn_weights.back().category != static_cast<int>(catalog.yarn_weights.size()) - 1)
            row.fail("category", "must count up from 0");
    }
    for (auto& row : file.children("yarn_use")) catalog.yarn_practice.uses.push_back(read_use(row));
    catalog.yarn_practice.mass_spread = read_value(file, "swatch_mass_spread", 0.0, 1.0);
    catalog.yarn_practice.margin = read_usual(file, "yarn_margin", 0.0, 1.0);
}

void read_heads(TableRow& file, Catalog& catalog) {
    for (auto& row : file.children("children")) {
        catalog.child_heads.push_back(read_child(row));
        const auto& all = catalog.child_heads;
        if (all.size() > 1 && all.back().age_months <= all[all.size() - 2].age_months)
            row.fail("age_months", "must be larger than in the row before");
    }
    for (auto& row : file.children("adults")) catalog.adult_heads.push_back(read_adults(row));
    read_hat_practice(file, catalog.hat_practice);
}

}  // namespace ridgetally
