#include "web/qr_code.h"

#include <qrencode.h>

#include <memory>

namespace ridgetally::web {
namespace {

constexpr int quiet_modules = 4;

/// Black ink on a white ground (SGR 30 and 107, ECMA-48).
constexpr const char* dark_on_light = "\x1b[30;107m";
constexpr const char* as_before = "\x1b[0m\n";

const char* half_block(bool upper_dark, bool lower_dark) {
    if (upper_dark) return lower_dark ? "\u2588" : "\u2580";
    return lower_dark ? "\u2584" : " ";
}

}  // namespace

std::string qr_code(const std::string& text) {
    const std::unique_ptr<QRcode, decltype(&::QRcode_free)> code(
        ::QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_L), &::QRcode_free);
    if (!code) return {};
    const auto dark = [&](int x, int y) {
        if (x < 0 || y < 0 || x >= code->width || y >= code->width) return false;
        return (code->data[y * code->width + x] & 1U) != 0;
    };
    std::string lines;
    for (int y = -quiet_modules; y < code->width + quiet_modules; y += 2) {
        lines += dark_on_light;
        for (int x = -quiet_modules; x < code->width + quiet_modules; ++x)
            lines += half_block(dark(x, y), dark(x, y + 1));
        lines += as_before;
    }
    return lines;
}

}  // namespace ridgetally::web
