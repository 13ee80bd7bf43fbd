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

}  // namespace

void read_hooks(TableRow& file, Catalog& catalog) {
    TableRow limit = file.child("shaft_limit_mm");
    catalog.hook_shaft_limit_mm = limit.number("value", 0.0, 2.0);
    (void)limit.text("source");
    limit.finish();
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
