#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "yarns/record.h"
#include "yarns/yarn.h"

/// The yarns of the record. Every function is one transaction. Refusals have the stage "record" and, besides
/// those of opening (io, record-busy, record-damaged), the codes named here.
namespace ridgetally {

/// Puts a yarn into the record and gives its number. Refusals: bad-value, name-taken.
[[nodiscard]] Outcome<std::int64_t> add_yarn(const Record& record, const Yarn& yarn);

/// The yarn of that name, byte for byte. Refusal: no-such-yarn, with names that are like it in the hint.
[[nodiscard]] Outcome<StoredYarn> find_yarn(const Record& record, std::string_view name);

/// Changes a yarn: `change` gets it as it is now, while nobody else can write, and gives it as it shall be,
/// or a refusal that leaves it. Gives the changed yarn. Refusals: no-such-yarn, bad-value, name-taken.
[[nodiscard]] Outcome<Yarn> change_yarn(const Record& record, std::string_view name,
                                        const std::function<Outcome<Yarn>(Yarn)>& change);

/// Takes what was used off the balls left and gives the yarn as it is now. Refusals: no-such-yarn,
/// unknown-amount (what is left or what is on a ball was not told), not-enough.
[[nodiscard]] Outcome<Yarn> use_yarn(const Record& record, std::string_view name, const Amount& used);

/// A yarn with the number of its measurements.
struct StockLine {
    Yarn yarn;
    std::int64_t measurements = 0;
};

/// Every yarn, sorted by name (byte order of UTF-8, which is the order of Unicode code points).
[[nodiscard]] Outcome<std::vector<StockLine>> list_yarns(const Record& record);

/// Whether there is any left, or nobody told how much.
[[nodiscard]] bool in_stock(const Yarn& yarn);

}  // namespace ridgetally
