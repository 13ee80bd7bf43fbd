#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "core/outcome.h"

/// What a HEIF file says it holds, read from its boxes (ISO/IEC 14496-12, 8.11, and 23008-12) before libheif
/// is asked for pixels; not for other layers. Nothing is decoded here and nothing copied but numbers.
namespace ridgetally::heif {

using ByteSpan = std::span<const std::uint8_t>;
using FourCc = std::uint32_t;
using ItemId = std::uint32_t;

/// The number that four letters make in a file.
consteval FourCc four_cc(const char (&letters)[5]) {
    FourCc code = 0;
    for (int i = 0; i < 4; ++i) code = code << 8 | static_cast<std::uint8_t>(letters[i]);
    return code;
}

/// Reads numbers, high byte first. Behind the end every number is 0, and ok() is false from then on.
class ByteReader {
  public:
    explicit ByteReader(ByteSpan bytes) : rest_(bytes) {}

    /// Of `width` bytes, 0 to 8.
    std::uint64_t number(int width);
    /// The next bytes as they are; none where there are not as many.
    ByteSpan take(std::uint64_t count);
    [[nodiscard]] ByteSpan rest() const { return rest_; }
    [[nodiscard]] bool at_end() const { return rest_.empty(); }
    [[nodiscard]] bool ok() const { return ok_; }

  private:
    ByteSpan rest_;
    bool ok_ = true;
};

/// 14496-12, 4.2: size and type are read, `content` is what follows them.
struct Box {
    FourCc type = 0;
    ByteSpan content;
};

/// The box that begins here, or none where there is no whole one. A box "up to the end of the file" (size 0)
/// is none: nothing that counts here may follow it.
[[nodiscard]] std::optional<Box> next_box(ByteReader& reader);

/// Boxes from the first to the last byte; none where something else lies between.
[[nodiscard]] std::optional<std::vector<Box>> all_boxes(ByteSpan content);

/// One item (8.11.6): its type, where its bytes are, which properties it has.
struct Item {
    FourCc type = 0;
    std::vector<ByteSpan> extents;
    std::vector<Box> properties;
};

/// 8.11.12: "dimg" from a grid to its tiles, "auxl" from an auxiliary picture to its master.
struct Reference {
    FourCc type = 0;
    ItemId from = 0;
    std::vector<ItemId> to;
};

struct Structure {
    ItemId primary = 0;
    std::map<ItemId, Item> items;
    std::vector<Reference> references;
};

/// What a file of many small boxes may cost: libheif makes some 100 bytes of each. Phones write a few hundred
/// items in some 20 kB (not swept).
struct StructureLimits {
    int boxes_of_file = 1024;
    std::size_t meta_bytes = std::size_t{16} * 1000 * 1000;
    std::size_t items = 8192;
};

/// Stricter than libheif, so that both see the same file: what may be there once and is there twice is
/// damage, as is an item twice. Refusals: damaged-photo.
[[nodiscard]] Outcome<Structure> read_structure(ByteSpan file, const StructureLimits& limits = {});

}  // namespace ridgetally::heif
