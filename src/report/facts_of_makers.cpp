#include <algorithm>

#include "report/facts.h"

namespace ridgetally {
namespace {

Cell joined(const std::vector<std::string>& words) {
    std::string text;
    for (const auto& word : words) text += (text.empty() ? "" : ", ") + word;
    return text.empty() ? Cell() : Cell(text);
}

FactsTable hooks_table(const Catalog& catalog) {
    FactsTable table{"hooks",
                     "Crochet hooks by their shaft. Marks are names, not sizes: charts disagree.",
                     {{"mm", "mm"},
                      {"us", "US"},
                      {"us_also_seen", "US, also seen"},
                      {"uk_old", "old UK"},
                      {"sold", "sold"}},
                     {}};
    for (const auto& hook : catalog.hooks) {
        table.rows.push_back({{hook.mm, hook.us ? Cell(*hook.us) : Cell(), joined(hook.us_also_seen),
                               joined(hook.uk_old), std::string(hook.widely_sold ? "widely" : "rarely")},
                              hook.source});
    }
    return table;
}

FactsTable practice_table(const HookPractice& practice) {
    const auto& response = practice.response;
    return {"practice",
            "Gauge and hook: stitch width grows as hook^exponent.",
            {{"what", "what"}, {"usual", "usual"}, {"low", "low"}, {"high", "high"}},
            {{{"exponent", response.usual, response.low, response.high}, response.source},
             {{"half range of one maker's gauge, share", practice.gauge_repeat.value, {}, {}},
              practice.gauge_repeat.source},
             {{"large miss, share", practice.large_miss.value, {}, {}}, practice.large_miss.source},
             {{"shaft off its stamp by up to, mm", practice.shaft_limit_mm.value, {}, {}},
              practice.shaft_limit_mm.source}}};
}

FactsTable responses_table(const HookPractice& practice) {
    FactsTable table{"published_responses",
                     "Published series: stitches over 4 in on several hooks or needles.",
                     {{"what", "what"}, {"tools_mm", "mm"}, {"counts", "stitches"}, {"exponent", "exponent"}},
                     {}};
    const auto list = [](const std::vector<double>& numbers) {
        std::vector<std::string> words;
        for (const double number : numbers) words.push_back(plain_number(number));
        return joined(words);
    };
    for (const auto& r : practice.published_responses)
        table.rows.push_back({{r.what, list(r.tools_mm), list(r.counts), r.exponent}, r.source});
    return table;
}

FactsTable children_table(const Catalog& catalog) {
    FactsTable table{"children",
                     "Heads of children, mm: 3, 50 and 97 of 100 have a smaller head.",
                     {{"age_months", "months"},
                      {"boys_p3", "boys 3"},
                      {"boys_p50", "50"},
                      {"boys_p97", "97"},
                      {"girls_p3", "girls 3"},
                      {"girls_p50", "50"},
                      {"girls_p97", "97"}},
                     {}};
    for (const auto& c : catalog.child_heads) {
        table.rows.push_back({{static_cast<double>(c.age_months), c.boys.p3_mm, c.boys.p50_mm, c.boys.p97_mm,
                               c.girls.p3_mm, c.girls.p50_mm, c.girls.p97_mm},
                              c.source});
    }
    return table;
}

FactsTable adults_table(const Catalog& catalog) {
    FactsTable table{
        "adults",
        "Heads of adults, mm: mean, standard deviation; 5, 50 and 95 of 100 have a smaller head.",
        {{"who", "who"},
         {"count", "measured"},
         {"mean_mm", "mean"},
         {"std_mm", "sd"},
         {"p5_mm", "5"},
         {"p50_mm", "50"},
         {"p95_mm", "95"}},
        {}};
    for (const auto& a : catalog.adult_heads) {
        table.rows.push_back(
            {{a.who, static_cast<double>(a.count), a.mean_mm, a.std_mm, a.p5_mm, a.p50_mm, a.p95_mm},
             a.source});
    }
    return table;
}

FactsTable sizes_table(const HatPractice& hats) {
    FactsTable table{"trade_sizes",
                     "Sizes of the trade, head in mm. Names, not measured heads: lists disagree, so always "
                     "print the cm.",
                     {{"list", "list"}, {"name", "name"}, {"low_mm", "from"}, {"high_mm", "to"}},
                     {}};
    for (const auto& s : hats.sizes)
        table.rows.push_back({{s.list, s.name, s.head_low_mm, s.head_high_mm}, s.source});
    return table;
}

FactsTable ease_table(const HatPractice& hats) {
    FactsTable table{"ease",
                     "Ease, (hat - head) / head. No standard.",
                     {{"who", "whose rule"}, {"low", "from"}, {"high", "to"}, {"usual", "used here"}},
                     {}};
    table.rows.push_back(
        {{std::string("this program"), hats.ease.low, hats.ease.high, hats.ease.usual}, hats.ease.source});
    for (const auto& rule : hats.ease_rules)
        table.rows.push_back({{rule.who, rule.low, rule.high, {}}, rule.source});
    return table;
}

FactsTable heights_table(const HatPractice& hats) {
    FactsTable table{"heights",
                     "Height of a hat from the centre of the crown to its edge; the first rule is used.",
                     {{"rule", "rule"},
                      {"share_of_head", "share of head"},
                      {"plus_low_mm", "plus mm"},
                      {"plus_high_mm", "to"}},
                     {}};
    for (const auto& r : hats.height_rules)
        table.rows.push_back({{r.name, r.share_of_head, r.plus_low_mm, r.plus_high_mm}, r.source});
    return table;
}

}  // namespace

std::vector<FactsTable> hook_facts(const Catalog& catalog) {
    FactsTable steel{"steel_hooks",
                     "Steel (thread) hooks by their US number; other lists differ.",
                     {{"us", "US"}, {"mm", "mm"}},
                     {}};
    for (const auto& hook : catalog.steel_hooks) steel.rows.push_back({{hook.us, hook.mm}, hook.source});
    return {hooks_table(catalog), steel, practice_table(catalog.hook_practice),
            responses_table(catalog.hook_practice)};
}

std::vector<FactsTable> head_facts(const Catalog& catalog) {
    const HatPractice& hats = catalog.hat_practice;
    FactsTable cautions{"cautions",
                        "Cautions for babies and children; the rules of your country come first.",
                        {{"code", "caution"}},
                        {}};
    for (const auto& c : hats.cautions) cautions.rows.push_back({{c.code}, c.text + " Source: " + c.source});
    return {children_table(catalog), adults_table(catalog), sizes_table(hats),
            ease_table(hats),        heights_table(hats),   cautions};
}

}  // namespace ridgetally
