#include "yarns/chosen_gauge.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "yarns/cells.h"
#include "yarns/fault.h"
#include "yarns/keys.h"

namespace ridgetally {
namespace {

/// Two shafts that differ by less are one hook: finer than any two sizes that are sold.
constexpr double same_hook_mm = 0.01;

template <typename T>
bool agrees(const std::optional<T>& told, const std::optional<T>& found) {
    return !told || told == found;
}

bool is_of(const GaugeKind& kind, const GaugeKind& told) {
    const bool hook =
        !told.hook_mm || (kind.hook_mm && std::abs(*kind.hook_mm - *told.hook_mm) < same_hook_mm);
    return hook && agrees(told.stitch, kind.stitch) && agrees(told.worked, kind.worked) &&
           agrees(told.state, kind.state);
}

/// Whether the gauges have more than one value there.
template <typename Field>
bool differ(const std::vector<HookGauge>& gauges, Field field) {
    return std::any_of(gauges.begin(), gauges.end(), [&](const HookGauge& gauge) {
        return gauge.kind.*field != gauges.front().kind.*field;
    });
}

std::string kinds_list(const std::vector<HookGauge>& gauges) {
    std::set<std::string> seen;
    std::string text;
    for (const auto& gauge : gauges) {
        const std::string words = kind_words(gauge.kind);
        if (seen.insert(words).second) text += (text.empty() ? "" : "; ") + words;
    }
    return text;
}

Refusal which(const Yarn& yarn, const std::vector<HookGauge>& gauges, const std::string& option) {
    return {record_stage, "which-gauge",
            "the record has several gauges of \"" + yarn.name + "\": " + kinds_list(gauges),
            "say which with " + option};
}

/// Keeps the gauges of the first state of the order that is there.
std::vector<HookGauge> best_state(const std::vector<HookGauge>& gauges) {
    constexpr std::array<std::optional<FabricState>, 4> order = {FabricState::washed, FabricState::relaxed,
                                                                 FabricState::off_hook, std::nullopt};
    for (const auto& state : order) {
        std::vector<HookGauge> kept;
        std::copy_if(gauges.begin(), gauges.end(), std::back_inserter(kept),
                     [&](const HookGauge& gauge) { return gauge.kind.state == state; });
        if (!kept.empty()) return kept;
    }
    return gauges;
}

void keep_rather(std::vector<HookGauge>& gauges, const std::optional<Worked>& rather) {
    const auto is_rather = [&](const HookGauge& gauge) { return gauge.kind.worked == rather; };
    if (rather && std::any_of(gauges.begin(), gauges.end(), is_rather))
        std::erase_if(gauges, [&](const HookGauge& gauge) { return !is_rather(gauge); });
}

std::vector<Reason> reasons_of(const HookGauge& taken, const std::vector<HookGauge>& all,
                               const GaugeChoice& choice) {
    const auto unwashed = [](const HookGauge& gauge) { return gauge.kind.state != FabricState::washed; };
    if (choice.told.state) return {};
    if (unwashed(taken)) {
        return {{"unwashed-gauge",
                 "no washed swatch like that is in the record, so an unwashed one was taken: wash, dry and "
                 "measure it, the finished piece may come out otherwise"}};
    }
    if (std::none_of(all.begin(), all.end(), unwashed)) return {};
    return {{"washed-gauge",
             "the washed swatches of the record were taken, not the unwashed ones: that is how the piece "
             "will be used"}};
}

}  // namespace

std::string numbers_words(const std::vector<std::int64_t>& numbers) {
    std::string text = "number ";
    for (std::size_t i = 0; i < numbers.size(); ++i)
        text += (i == 0 ? "" : ", ") + std::to_string(numbers[i]);
    return text;
}

std::string kind_words(const GaugeKind& kind) {
    std::string text = kind.hook_mm ? cell_of(kind.hook_mm) + " mm hook" : "hook not told";
    const auto add = [&](const auto& value) {
        if (value) text += ", " + std::string(key_of(*value));
    };
    add(kind.stitch);
    add(kind.worked);
    add(kind.state);
    return text;
}

Outcome<ChosenGauge> choose_gauge(const Yarn& yarn, const std::vector<HookGauge>& gauges,
                                  const GaugeChoice& choice) {
    std::vector<HookGauge> left;
    std::copy_if(gauges.begin(), gauges.end(), std::back_inserter(left),
                 [&](const HookGauge& gauge) { return is_of(gauge.kind, choice.told); });
    if (left.empty()) {
        const std::string there =
            gauges.empty() ? "nothing was measured of it" : "there are " + kinds_list(gauges);
        return Refusal{record_stage, "no-such-gauge",
                       "the record has no such gauge of \"" + yarn.name + "\": " + there,
                       gauges.empty() ? "measure a swatch: ridgetally swatch PHOTO --hook 5mm --save NAME"
                                      : "ask for one that is there, or measure a swatch and save it"};
    }
    if (differ(left, &GaugeKind::hook_mm)) return which(yarn, left, "--hook");
    if (differ(left, &GaugeKind::stitch)) return which(yarn, left, "--stitch");
    const std::vector<HookGauge> alike = left;
    left = best_state(left);
    keep_rather(left, choice.rather);
    if (left.size() > 1) return which(yarn, left, "--worked");
    const HookGauge& taken = left.front();
    return ChosenGauge{taken,
                       "record of yarns, \"" + yarn.name + "\": " + kind_words(taken.kind) + ", " +
                           numbers_words(taken.numbers),
                       reasons_of(taken, alike, choice)};
}

}  // namespace ridgetally
