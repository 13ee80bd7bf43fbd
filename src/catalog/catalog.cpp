#include "catalog/catalog.h"

#include <fstream>
#include <nlohmann/json.hpp>

#include "catalog/tables.h"

namespace ridgetally {
namespace {

using Reader = void (*)(TableRow&, Catalog&);

void read_file(const std::filesystem::path& folder, const std::string& name, Reader reader,
               Catalog& catalog) {
    const std::string file = name + ".json";
    std::ifstream stream(folder / file);
    if (!stream) throw TableFault(file + ": cannot be read in " + folder.string());
    nlohmann::json document;
    try {
        document = nlohmann::json::parse(stream);
    } catch (const nlohmann::json::parse_error& fault) {
        throw TableFault(file + ": is no JSON: " + fault.what());
    }
    TableRow top(document, file);
    const std::string schema = "ridgetally.models." + name + "/1";
    if (top.text("schema") != schema) top.fail("schema", "must be \"" + schema + "\"");
    (void)top.text("note");
    reader(top, catalog);
    top.finish();
}

template <typename Thing>
const Thing* with_key(const std::vector<Thing>& things, std::string_view key) {
    for (const auto& thing : things)
        if (thing.key == key) return &thing;
    return nullptr;
}

}  // namespace

Outcome<Catalog> load_catalog(const std::filesystem::path& folder) {
    Catalog catalog;
    try {
        read_file(folder, "stitches", read_stitches, catalog);
        read_file(folder, "references", read_references, catalog);
        read_file(folder, "hooks", read_hooks, catalog);
        read_file(folder, "yarn-weights", read_yarn_weights, catalog);
        read_file(folder, "heads", read_heads, catalog);
    } catch (const TableFault& fault) {
        return Refusal{"catalog", "bad-models", fault.what(),
                       "reinstall the program, or set RIDGETALLY_MODELS to the folder of its facts"};
    }
    return catalog;
}

const StitchFacts& facts_of(const Catalog& catalog, StitchFamily family) {
    return catalog.stitches.at(static_cast<std::size_t>(family));
}

const FlatObject* find_flat_object(const Catalog& catalog, std::string_view key) {
    return with_key(catalog.flat_objects, key);
}

const Coin* find_coin(const Catalog& catalog, std::string_view key) { return with_key(catalog.coins, key); }

const RuleClass* find_rule_class(const Catalog& catalog, std::string_view key) {
    return with_key(catalog.rule_classes, key);
}

const RulerKind* find_ruler_kind(const Catalog& catalog, std::string_view key) {
    return with_key(catalog.ruler_kinds, key);
}

}  // namespace ridgetally
