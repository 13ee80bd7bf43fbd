#pragma once

#include <array>
#include <string_view>
#include <vector>

#include "catalog/catalog.h"
#include "report/table.h"

namespace ridgetally {

/// What `ridgetally facts` can show.
enum class FactsTopic { hooks, yarn_weights, heads, stitches, references };
inline constexpr std::array<std::string_view, 5> facts_topic_keys = {"hooks", "yarn-weights", "heads",
                                                                     "stitches", "references"};

/// The tables of a topic, every row with its source.
[[nodiscard]] std::vector<FactsTable> facts_tables(const Catalog& catalog, FactsTopic topic);

/// `{"schema": "ridgetally.facts/1", "topic", tables}`.
[[nodiscard]] Document facts_document(const Catalog& catalog, FactsTopic topic);

/// Tables of hooks, of heads and hats; used by facts_tables.
[[nodiscard]] std::vector<FactsTable> hook_facts(const Catalog& catalog);
[[nodiscard]] std::vector<FactsTable> head_facts(const Catalog& catalog);

}  // namespace ridgetally
