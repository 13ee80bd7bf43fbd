#include <algorithm>

#include "catalog/tables.h"

namespace ridgetally {
namespace {

template <typename Thing>
void require_new_key(const std::vector<Thing>& known, const Thing& thing, const TableRow& row) {
    if (std::any_of(known.begin(), known.end(), [&](const Thing& k) { return k.key == thing.key; }))
        row.fail("key", "\"" + thing.key + "\" is given twice");
}

/// A row that begins with its key and its name; messages call it by its key.
template <typename Thing>
Thing named_thing(TableRow& row) {
    Thing thing;
    thing.key = row.text("key");
    row.call(thing.key);
    thing.name = row.text("name");
    return thing;
}

FlatObject read_flat_object(TableRow& row) {
    auto object = named_thing<FlatObject>(row);
    object.width_mm = read_limits(row, "width_mm", 20.0, 2000.0);
    object.height_mm = read_limits(row, "height_mm", 20.0, 2000.0);
    if (object.height_mm.nominal > object.width_mm.nominal)
        row.fail("height_mm", "must not be larger than the width");
    object.thickness_mm = read_limits(row, "thickness_mm", 0.0, 50.0);
    object.corner_radius_mm = read_limits(row, "corner_radius_mm", 0.0, 50.0);
    object.source = row.text("source");
    row.finish();
    return object;
}

Coin read_coin(TableRow& row) {
    auto coin = named_thing<Coin>(row);
    coin.diameter_mm = read_limits(row, "diameter_mm", 10.0, 60.0);
    if (row.has("thickness_mm")) coin.thickness_mm = read_limits(row, "thickness_mm", 0.5, 10.0);
    coin.source = row.text("source");
    row.finish();
    return coin;
}

RuleClass read_rule_class(TableRow& row) {
    auto rule = named_thing<RuleClass>(row);
    rule.a_mm = row.number("a_mm", 0.0, 10.0);
    rule.b_mm = row.number("b_mm", 0.0, 10.0);
    rule.c_mm = row.number("c_mm", 0.0, 10.0);
    rule.step_m = row.number("step_m", 0.01, 10.0);
    rule.source = row.text("source");
    row.finish();
    return rule;
}

RulerKind read_ruler_kind(TableRow& row) {
    auto kind = named_thing<RulerKind>(row);
    kind.face_mm = read_limits(row, "face_mm", 0.0, 10.0);
    kind.source = row.text("source");
    row.finish();
    return kind;
}

/// What the program tells apart must be there.
void require_kinds(const TableRow& file, const Catalog& catalog) {
    for (const char* key : {"tape", "wood", "steel", "plastic"}) {
        if (find_ruler_kind(catalog, key) == nullptr)
            file.fail("ruler_kinds", "has no \"" + std::string(key) + "\"");
    }
}

template <typename Thing, typename Read>
void read_all(TableRow& file, const std::string& list, std::vector<Thing>& into, const Read& read) {
    for (auto& row : file.children(list)) {
        const Thing thing = read(row);
        require_new_key(into, thing, row);
        into.push_back(thing);
    }
}

}  // namespace

void read_references(TableRow& file, Catalog& catalog) {
    read_all(file, "flat_objects", catalog.flat_objects, read_flat_object);
    read_all(file, "coins", catalog.coins, read_coin);
    read_all(file, "rule_classes", catalog.rule_classes, read_rule_class);
    read_all(file, "ruler_kinds", catalog.ruler_kinds, read_ruler_kind);
    require_kinds(file, catalog);
}

}  // namespace ridgetally
