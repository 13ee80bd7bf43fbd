#pragma once

#include <string>

namespace ridgetally::web {

/// The text as a QR code (ISO/IEC 18004, error correction level L) in a quiet zone of four modules, two rows
/// of modules to a line of the terminal in half blocks (U+2580 and on), dark on light whatever the terminal's
/// colours are. Empty where the text is too long for any code.
[[nodiscard]] std::string qr_code(const std::string& text);

}  // namespace ridgetally::web
