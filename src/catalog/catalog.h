#pragma once

#include <filesystem>
#include <string_view>
#include <vector>

#include "catalog/facts.h"
#include "catalog/maker_facts.h"
#include "core/outcome.h"

namespace ridgetally {

/// The facts the program works with, as models/*.json hold them; models/README.md describes the files.
struct Catalog {
    std::vector<StitchFacts> stitches;  ///< one a family, in the order of StitchFamily
    std::vector<FlatObject> flat_objects;
    std::vector<Coin> coins;
    std::vector<RuleClass> rule_classes;
    std::vector<RulerKind> ruler_kinds;  ///< every kind of `RulerKind::key`
    std::vector<HookSize> hooks;         ///< by rising size
    std::vector<SteelHook> steel_hooks;  ///< by falling size
    HookPractice hook_practice;
    std::vector<YarnWeight> yarn_weights;  ///< by category
    std::vector<ChildHeads> child_heads;   ///< by age
    std::vector<AdultHeads> adult_heads;
    HatPractice hat_practice;
    YarnPractice yarn_practice;
};

/// Reads and checks every file. The refusal (code "bad-models") names file, row and field of the first fault.
[[nodiscard]] Outcome<Catalog> load_catalog(const std::filesystem::path& folder);

/// Folder of the facts: the environment variable RIDGETALLY_MODELS where it is set, else the installed
/// ../share/ridgetally/models seen from the executable, else the source tree the program was built from.
[[nodiscard]] std::filesystem::path models_folder();

/// Facts of one family.
[[nodiscard]] const StitchFacts& facts_of(const Catalog& catalog, StitchFamily family);

/// The row with this key; null where there is none.
[[nodiscard]] const FlatObject* find_flat_object(const Catalog& catalog, std::string_view key);
[[nodiscard]] const Coin* find_coin(const Catalog& catalog, std::string_view key);
[[nodiscard]] const RuleClass* find_rule_class(const Catalog& catalog, std::string_view key);
[[nodiscard]] const RulerKind* find_ruler_kind(const Catalog& catalog, std::string_view key);

}  // namespace ridgetally
