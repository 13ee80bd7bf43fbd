#include <algorithm>

#include "catalog/tables.h"
#include "core/units.h"

namespace ridgetally {
namespace {

StitchName read_name(TableRow row) {
    StitchName name{row.text("name"), row.text("abbreviation")};
    row.finish();
    return name;
}

PublishedGauge read_gauge(TableRow& row) {
    PublishedGauge gauge;
    gauge.stitches = row.number("stitches", 1.0, 100.0);
    gauge.rows = row.number("rows", 1.0, 100.0);
    const std::string span = row.text("span");
    if (span != "10 cm" && span != "4 in") row.fail("span", "must be \"10 cm\" or \"4 in\"");
    gauge.span_mm = span == "10 cm" ? span_10cm_mm : span_4in_mm;
    gauge.source = row.text("source");
    row.finish();
    return gauge;
}

HeightToWidth read_height_to_width(TableRow row) {
    HeightToWidth shape;
    shape.mean = row.number("mean", 0.3, 6.0);
    shape.std = row.number("std", 0.01, 2.0);
    shape.low = row.number("low", 0.3, shape.mean);
    shape.high = row.number("high", shape.mean, 6.0);
    shape.count = row.whole("count", 0, 1000);
    shape.source = row.text("source");
    row.finish();
    return shape;
}

void read_repeat_rows(TableRow row, StitchFacts& facts) {
    facts.repeat_rows_flat = row.whole("flat", 1, 2);
    facts.repeat_rows_round = row.whole("round", 1, 2);
    (void)row.text("source");
    row.finish();
}

AddedEachRound read_added(TableRow row) {
    AddedEachRound added;
    added.low = row.whole("low", 1, 60);
    added.usual = row.whole("usual", added.low, 60);
    added.high = row.whole("high", added.usual, 60);
    added.source = row.text("source");
    row.finish();
    return added;
}

void read_yarn_radii(TableRow row, StitchFacts& facts) {
    facts.width_in_yarn_radii_low = row.number("low", 1.0, 20.0);
    facts.width_in_yarn_radii_high = row.number("high", facts.width_in_yarn_radii_low, 20.0);
    (void)row.text("source");
    row.finish();
}

StitchFacts read_stitch(TableRow& row) {
    StitchFacts facts;
    const std::string key = row.text("family");
    const auto family = stitch_family_from(key);
    if (!family) row.fail("family", "\"" + key + "\" is no stitch family");
    row.call(key);
    facts.family = *family;
    facts.us = read_name(row.child("us"));
    facts.uk = read_name(row.child("uk"));
    for (auto& gauge : row.children("gauges")) facts.gauges.push_back(read_gauge(gauge));
    facts.height_to_width = read_height_to_width(row.child("height_to_width"));
    if (facts.height_to_width.count != static_cast<int>(facts.gauges.size()))
        row.fail("height_to_width.count", "must be the number of gauges of the row");
    read_repeat_rows(row.child("repeat_rows"), facts);
    if (row.has("added_each_round")) facts.added_each_round = read_added(row.child("added_each_round"));
    read_yarn_radii(row.child("width_in_yarn_radii"), facts);
    facts.source = row.text("source");
    row.finish();
    return facts;
}

}  // namespace

void read_stitches(TableRow& file, Catalog& catalog) {
    std::vector<StitchFacts> found;
    for (auto& row : file.children("stitches")) {
        found.push_back(read_stitch(row));
        const auto family = found.back().family;
        if (std::count_if(found.begin(), found.end(), [&](const auto& f) { return f.family == family; }) > 1)
            row.fail("family", "is given twice");
    }
    for (int i = 0; i < stitch_family_count; ++i) {
        const auto family = static_cast<StitchFamily>(i);
        const auto at =
            std::find_if(found.begin(), found.end(), [&](const auto& f) { return f.family == family; });
        if (at == found.end()) file.fail("stitches", "has no row for " + std::string(key_of(family)));
        catalog.stitches.push_back(*at);
    }
}

}  // namespace ridgetally
