#include "report/facts.h"

#include "core/units.h"

namespace ridgetally {
namespace {

Cell range_cell(const OpenRange& range) {
    if (range.low && range.high) return plain_number(*range.low) + "-" + plain_number(*range.high);
    if (range.low) return plain_number(*range.low) + " and more";
    if (range.high) return plain_number(*range.high) + " and fewer";
    return {};
}

Cell limits_cell(const Limits& limits) {
    return plain_number(limits.nominal) + " (" + plain_number(limits.low) + "-" + plain_number(limits.high) +
           ")";
}

std::vector<FactsTable> yarn_weight_facts(const Catalog& catalog) {
    FactsTable weights{"yarn_weights",
                       "Yarn weights. Guidelines only; a knit gauge is no target for crochet.",
                       {{"category", "cat"},
                        {"name", "name"},
                        {"uk_name", "UK name"},
                        {"crochet_stitches_4in", "sc over 4 in"},
                        {"hook_mm", "hook mm"},
                        {"knit_stitches_4in", "knit sts 4 in"},
                        {"needle_mm", "needle mm"},
                        {"wraps_per_inch", "wraps/in"}},
                       {}};
    for (const auto& w : catalog.yarn_weights) {
        weights.rows.push_back(
            {{static_cast<double>(w.category), w.name, w.uk_name, range_cell(w.crochet_stitches_4in),
              range_cell(w.hook_mm), range_cell(w.knit_stitches_4in), range_cell(w.needle_mm),
              range_cell(w.wraps_per_inch)},
             w.crochet_stitches_4in.source});
    }
    FactsTable use{"yarn_use",
                   "Yarn that was measured in squares (an example, not a default).",
                   {{"stitch", "stitch"}, {"m_per_100cm2", "m per 100 cm2"}},
                   {}};
    for (const auto& u : catalog.yarn_practice.uses)
        use.rows.push_back({{u.stitch, u.m_per_100cm2}, u.source});
    const auto& practice = catalog.yarn_practice;
    FactsTable margin{
        "practice",
        "Margins, as shares.",
        {{"what", "what"}, {"usual", "usual"}, {"low", "low"}, {"high", "high"}},
        {{{"yarn to have more than needed", practice.margin.usual, practice.margin.low, practice.margin.high},
          practice.margin.source},
         {{"half range of the mass of equal swatches", practice.mass_spread.value, {}, {}},
          practice.mass_spread.source}}};
    return {weights, use, margin};
}

std::vector<FactsTable> stitch_facts(const Catalog& catalog) {
    FactsTable names{
        "stitches",
        "Stitch families. Height:width is what published gauges give; a flat circle adds so many "
        "stitches each round.",
        {{"family", "family"},
         {"us", "US"},
         {"uk", "UK"},
         {"height_to_width", "h:w"},
         {"low", "low"},
         {"high", "high"},
         {"gauges", "gauges"},
         {"added_each_round", "added each round"}},
        {}};
    FactsTable gauges{"gauges",
                      "Published gauges.",
                      {{"family", "family"}, {"stitches", "stitches"}, {"rows", "rows"}, {"over", "over"}},
                      {}};
    for (const auto& s : catalog.stitches) {
        const std::string family(key_of(s.family));
        const auto& shape = s.height_to_width;
        Cell added;
        if (s.added_each_round) {
            added = plain_number(s.added_each_round->usual) + " (" + plain_number(s.added_each_round->low) +
                    "-" + plain_number(s.added_each_round->high) + ")";
        }
        std::string source = shape.source;
        if (s.added_each_round) source += "; added each round: " + s.added_each_round->source;
        names.rows.push_back({{family, s.us.name, s.uk.name, shape.mean, shape.low, shape.high,
                               static_cast<double>(shape.count), added},
                              source});
        for (const auto& g : s.gauges) {
            const std::string span = g.span_mm == span_10cm_mm ? "10 cm" : "4 in";
            gauges.rows.push_back({{family, g.stitches, g.rows, span}, g.source});
        }
    }
    return {names, gauges};
}

std::vector<FactsTable> reference_facts(const Catalog& catalog) {
    FactsTable flat{"flat_objects",
                    "Cards and sheets, mm (in brackets: between which limits they are sold).",
                    {{"key", "key"}, {"name", "name"}, {"width_mm", "width"}, {"height_mm", "height"}},
                    {}};
    for (const auto& o : catalog.flat_objects)
        flat.rows.push_back({{o.key, o.name, limits_cell(o.width_mm), limits_cell(o.height_mm)}, o.source});
    FactsTable coins{
        "coins", "Round coins, mm.", {{"key", "key"}, {"name", "name"}, {"diameter_mm", "diameter"}}, {}};
    for (const auto& c : catalog.coins)
        coins.rows.push_back({{c.key, c.name, limits_cell(c.diameter_mm)}, c.source});
    FactsTable rules{
        "rule_classes",
        "Rules and tapes: between two marks off by a + b for every started step, mm; from the end by c more.",
        {{"key", "key"}, {"name", "name"}, {"a_mm", "a"}, {"b_mm", "b"}, {"c_mm", "c"}, {"step_m", "step m"}},
        {}};
    for (const auto& r : catalog.rule_classes)
        rules.rows.push_back({{r.key, r.name, r.a_mm, r.b_mm, r.c_mm, r.step_m}, r.source});
    FactsTable kinds{"ruler_kinds",
                     "How high the marked face of a ruler lies, mm; looks decide which it may be.",
                     {{"key", "key"}, {"name", "name"}, {"face_mm", "face"}},
                     {}};
    for (const auto& k : catalog.ruler_kinds)
        kinds.rows.push_back({{k.key, k.name, limits_cell(k.face_mm)}, k.source});
    return {flat, coins, rules, kinds};
}

}  // namespace

std::vector<FactsTable> facts_tables(const Catalog& catalog, FactsTopic topic) {
    switch (topic) {
        case FactsTopic::hooks:
            return hook_facts(catalog);
        case FactsTopic::yarn_weights:
            return yarn_weight_facts(catalog);
        case FactsTopic::heads:
            return head_facts(catalog);
        case FactsTopic::stitches:
            return stitch_facts(catalog);
        case FactsTopic::references:
            break;
    }
    return reference_facts(catalog);
}

Document facts_document(const Catalog& catalog, FactsTopic topic) {
    Document document;
    document["schema"] = "ridgetally.facts/1";
    document["topic"] = facts_topic_keys.at(static_cast<std::size_t>(topic));
    document.update(tables_document(facts_tables(catalog, topic)));
    return document;
}

}  // namespace ridgetally
