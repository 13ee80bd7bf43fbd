#include "cli/exit_status.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace ridgetally {
namespace {

int severity(ExitStatus status) {
    switch (status) {
        case ExitStatus::ok:
            return 0;
        case ExitStatus::refused:
            return 1;
        case ExitStatus::bad_data:
            return 2;
        case ExitStatus::no_input:
            return 3;
        case ExitStatus::usage:
            return 4;
        case ExitStatus::io:
            return 5;
        case ExitStatus::internal:
            return 6;
        case ExitStatus::interrupted:
        case ExitStatus::terminated:
            break;
    }
    return 7;
}

/// Values of options that are wrong or missing, which shows only once all of them are known.
bool is_wrong_use(std::string_view code) {
    constexpr std::array<std::string_view, 10> codes = {
        "unknown-reference", "unknown-hook", "ambiguous-hook", "no-piece",  "no-gauge",
        "no-head-told",      "no-ball",      "no-weight",      "no-pieces", "no-area"};
    return std::find(codes.begin(), codes.end(), code) != codes.end();
}

}  // namespace

ExitStatus status_of(const Refusal& refusal) {
    if (refusal.code == "no-input") return ExitStatus::no_input;
    if (refusal.code == "io" || refusal.code == "record-busy") return ExitStatus::io;
    if (is_wrong_use(refusal.code)) return ExitStatus::usage;
    if (refusal.code == "bad-settings" || refusal.code == "not-a-report") return ExitStatus::bad_data;
    if (refusal.code == "bad-models") return ExitStatus::internal;
    if (refusal.code == "not-a-photo" || refusal.code == "unsupported-photo" ||
        refusal.code == "damaged-photo" || refusal.code == "record-damaged" ||
        refusal.code == "record-newer" || refusal.code == "not-a-record" || refusal.code == "bad-document" ||
        refusal.code == "bad-csv") {
        return ExitStatus::bad_data;
    }
    return ExitStatus::refused;
}

ExitStatus worse_of(ExitStatus a, ExitStatus b) { return severity(a) >= severity(b) ? a : b; }

}  // namespace ridgetally
