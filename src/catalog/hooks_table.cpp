#include "catalog/tables.h"

namespace ridgetally {
namespace {

HookSize read_hook(TableRow& row) {
    HookSize hook;
    hook.mm = row.number("mm", 0.3, 60.0);
    if (row.has("us")) hook.us = row.text("us");
    if (row.has("us_also_seen")) hook.us_also_seen = row.texts("us_also_seen");
    if (row.has("uk_old")) hook.uk_old = row.texts("uk_old");
    const std::string sold = row.text("sold");
    if (sold != "widely" && sold != "rarely") row.fail("sold", "must be \"widely\" or \"rarely\"");
    hook.widely_sold = sold == "widely";
    hook.source = row.text("source");
    row.finish();
    return hook;
}

SteelHook read_steel_hook(TableRow& row) {
    SteelHook hook{row.text("us"), row.number("mm", 0.3, 6.0), row.text("source")};
    row.finish();
    return hook;
}

PublishedResponse read_response(TableRow& row) {
    PublishedResponse series;
    series.what = row.text("what");
    row.call(series.what);
    series.tools_mm = row.numbers("tools_mm", 0.3, 60.0);
    series.counts = row.numbers("counts", 0.5, 100.0);
    if (series.tools_mm.size() != series.counts.size())
        row.fail("counts", "must have a figure for every tool");
    series.exponent = row.number("exponent", 0.0, 3.0);
    series.source = row.text("source");
    row.finish();
    return series;
}

void read_practice(TableRow& file, HookPractice& practice) {
    practice.shaft_limit_mm = read_value(file, "shaft_limit_mm", 0.0, 2.0);
    practice.response = read_usual(file, "response", 0.05, 3.0);
    for (auto& row : file.children("published_responses"))
        practice.published_responses.push_back(read_response(row));
    practice.gauge_repeat = read_value(file, "gauge_repeat", 0.001, 0.5);
    practice.large_miss = read_value(file, "large_miss", 0.01, 1.0);
}

}  // namespace

void read_hooks(TableRow& file, Catalog& catalog) {
    read_practice(file, catalog.hook_practice);
    for (auto& row : file.children("hooks")) {
        catalog.hooks.push_back(read_hook(row));
        if (catalog.hooks.size() > 1 && catalog.hooks.back().mm <= catalog.hooks[catalog.hooks.size() - 2].mm)
            row.fail("mm", "must be larger than in the row before");
    }
    for (auto& row : file.children("steel_hooks")) {
        catalog.steel_hooks.push_back(read_steel_hook(row));
        const auto& all = catalog.steel_hooks;
        if (all.size() > 1 && all.back().mm >= all[all.size() - 2].mm)
            row.fail("mm", "must be smaller than in the row before");
    }
}

}  // namespace ridgetally
