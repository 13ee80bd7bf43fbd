#include "cli/api/replies.h"

#include <array>
#include <string_view>

#include "cli/exit_status.h"
#include "report/one_line.h"

namespace ridgetally::api {
namespace {

struct StatusOfCode {
    std::string_view code;
    int status;
};

constexpr std::array<StatusOfCode, 10> statuses = {{{"no-such-yarn", 404},
                                                    {"no-such-measurement", 404},
                                                    {"nothing-removed", 409},
                                                    {"name-taken", 409},
                                                    {"photo-saved", 409},
                                                    {"unknown-amount", 409},
                                                    {"not-enough", 409},
                                                    {"record-busy", 503},
                                                    {"not-a-photo", 415},
                                                    {"too-large", 413}}};

int http_status(const Refusal& refusal) {
    for (const auto& [code, status] : statuses) {
        if (refusal.code == code) return status;
    }
    if (refusal.code == "bad-document" || refusal.code == "bad-value") return 400;
    if (refusal.stage == "photo" && status_of(refusal) == ExitStatus::bad_data) return 415;
    switch (status_of(refusal)) {
        case ExitStatus::usage:
        case ExitStatus::refused:
            return 400;
        default:
            return 500;
    }
}

}  // namespace

web::Reply json_reply(const Document& document, int status) {
    return {status, web::json_type, json_text(document), {}};
}

web::Reply refusal_reply(const Refusal& refusal) {
    const int status = http_status(refusal);
    if (status == 503)
        return web::busy_reply("another program is writing to the record; try again in a moment");
    if (status == 500)
        return web::error_reply(500, refusal.code,
                                "this failed on the computer that runs ridgetally; look there");
    std::string message = one_line(refusal.message);
    if (!refusal.hint.empty()) message += "; " + one_line(refusal.hint);
    return web::error_reply(status, refusal.code, message);
}

web::Reply bad_request(const std::string& message) {
    return web::error_reply(400, "bad-request", one_line(message));
}

}  // namespace ridgetally::api
