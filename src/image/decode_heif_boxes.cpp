#include "image/decode_heif_boxes.h"

#include <array>

#include "image/decode.h"

namespace ridgetally::heif {
namespace {

/// Version and flags of a full box (14496-12, 4.2.2).
struct FullBox {
    std::uint64_t version = 0;
    std::uint64_t flags = 0;
    ByteReader content;

    explicit FullBox(ByteSpan bytes) : content(bytes) {
        version = content.number(1);
        flags = content.number(3);
    }
    /// Bytes of an item's number, in boxes whose first version had two.
    [[nodiscard]] int id_width() const { return version == 0 ? 2 : 4; }
};

/// The boxes of "meta" that count, each at most once.
struct MetaParts {
    std::optional<ByteSpan> primary, infos, locations, properties, references, data;
};

std::optional<MetaParts> meta_parts(ByteSpan meta) {
    const auto boxes = all_boxes(FullBox(meta).content.rest());
    if (!boxes) return std::nullopt;
    MetaParts parts;
    const std::array<std::pair<FourCc, std::optional<ByteSpan>*>, 6> places = {
        {{four_cc("pitm"), &parts.primary},
         {four_cc("iinf"), &parts.infos},
         {four_cc("iloc"), &parts.locations},
         {four_cc("iprp"), &parts.properties},
         {four_cc("iref"), &parts.references},
         {four_cc("idat"), &parts.data}}};
    for (const Box& box : *boxes) {
        for (const auto& [type, place] : places) {
            if (box.type != type) continue;
            if (place->has_value()) return std::nullopt;
            *place = box.content;
        }
    }
    if (!parts.primary || !parts.infos || !parts.locations || !parts.properties) return std::nullopt;
    return parts;
}

/// "iinf" and its "infe" (8.11.6): number and type of each item.
bool read_infos(ByteSpan content, std::map<ItemId, Item>& items, std::size_t most_items) {
    FullBox infos(content);
    infos.content.number(infos.id_width());  // how many; the boxes tell
    const auto boxes = all_boxes(infos.content.rest());
    if (!infos.content.ok() || !boxes || boxes->size() > most_items) return false;
    for (const Box& box : *boxes) {
        if (box.type != four_cc("infe")) continue;
        FullBox info(box.content);
        const auto id = static_cast<ItemId>(info.content.number(info.version == 3 ? 4 : 2));
        info.content.number(2);  // protection
        const auto type = info.version >= 2 ? static_cast<FourCc>(info.content.number(4)) : 0;
        if (!info.content.ok() || !items.try_emplace(id, Item{type, {}, {}}).second) return false;
    }
    return true;
}

/// "iref" (8.11.12).
bool read_references(ByteSpan content, std::vector<Reference>& references) {
    FullBox box(content);
    const auto lists = all_boxes(box.content.rest());
    if (!box.content.ok() || !lists) return false;
    for (const Box& list : *lists) {
        ByteReader reader(list.content);
        Reference reference{list.type, static_cast<ItemId>(reader.number(box.id_width())), {}};
        const std::uint64_t count = reader.number(2);
        for (std::uint64_t i = 0; i < count && reader.ok(); ++i)
            reference.to.push_back(static_cast<ItemId>(reader.number(box.id_width())));
        if (!reader.ok() || !reader.at_end()) return false;
        references.push_back(std::move(reference));
    }
    return true;
}

/// "ipma" (8.11.14): which of the properties belong to which item, counted from 1; 0 is none.
bool associate(ByteSpan content, const std::vector<Box>& properties, std::map<ItemId, Item>& items) {
    FullBox box(content);
    const bool wide = (box.flags & 1) != 0;
    const std::uint64_t entries = box.content.number(4);
    for (std::uint64_t i = 0; i < entries && box.content.ok(); ++i) {
        const auto id = static_cast<ItemId>(box.content.number(box.id_width()));
        const std::uint64_t count = box.content.number(1);
        for (std::uint64_t k = 0; k < count && box.content.ok(); ++k) {
            const std::uint64_t index = box.content.number(wide ? 2 : 1) & (wide ? 0x7FFF : 0x7F);
            if (index > properties.size()) return false;
            if (const auto item = items.find(id); index > 0 && item != items.end())
                item->second.properties.push_back(properties[index - 1]);
        }
    }
    return box.content.ok();
}

/// "iprp" with one "ipco" and its "ipma".
bool read_properties(ByteSpan content, std::map<ItemId, Item>& items) {
    const auto boxes = all_boxes(content);
    if (!boxes) return false;
    std::optional<std::vector<Box>> properties;
    for (const Box& box : *boxes) {
        if (box.type != four_cc("ipco")) continue;
        if (properties) return false;
        properties = all_boxes(box.content);
        if (!properties) return false;
    }
    if (!properties) return false;
    for (const Box& box : *boxes)
        if (box.type == four_cc("ipma") && !associate(box.content, *properties, items)) return false;
    return true;
}

/// The widths that "iloc" may give its numbers.
bool is_width(int width) { return width == 0 || width == 4 || width == 8; }

/// "iloc" (8.11.3): each item's extents, in the file or in "idat".
bool read_locations(ByteSpan content, ByteSpan file, ByteSpan data, std::map<ItemId, Item>& items) {
    FullBox box(content);
    ByteReader& reader = box.content;
    const auto widths = reader.number(2);
    const int offset_width = static_cast<int>(widths >> 12 & 0xF),
              length_width = static_cast<int>(widths >> 8 & 0xF);
    const int base_width = static_cast<int>(widths >> 4 & 0xF);
    // Extents by their number in another item are not read.
    const bool indexed = box.version >= 1 && (widths & 0xF) != 0;
    if (box.version > 2 || indexed || !is_width(offset_width) || !is_width(length_width) ||
        !is_width(base_width))
        return false;
    const std::uint64_t count = reader.number(box.version < 2 ? 2 : 4);
    for (std::uint64_t i = 0; i < count && reader.ok(); ++i) {
        const auto item = items.find(static_cast<ItemId>(reader.number(box.version < 2 ? 2 : 4)));
        const std::uint64_t method = box.version == 0 ? 0 : reader.number(2) & 0xF;
        reader.number(2);  // another file's number
        const std::uint64_t base = reader.number(base_width);
        const std::uint64_t extents = reader.number(2);
        if (method > 1 || (item != items.end() && !item->second.extents.empty())) return false;
        for (std::uint64_t k = 0; k < extents && reader.ok(); ++k) {
            const std::uint64_t offset = reader.number(offset_width), length = reader.number(length_width);
            ByteReader source(method == 0 ? file : data);
            source.take(base);
            source.take(offset);
            const ByteSpan extent = source.take(length);
            if (!source.ok()) return false;
            if (item != items.end()) item->second.extents.push_back(extent);
        }
    }
    return reader.ok();
}

}  // namespace

std::uint64_t ByteReader::number(int width) {
    std::uint64_t value = 0;
    for (const std::uint8_t byte : take(static_cast<std::uint64_t>(width))) value = value << 8 | byte;
    return value;
}

ByteSpan ByteReader::take(std::uint64_t count) {
    if (count > rest_.size()) {
        ok_ = false;
        rest_ = {};
        return {};
    }
    const ByteSpan taken = rest_.first(count);
    rest_ = rest_.subspan(count);
    return taken;
}

std::optional<Box> next_box(ByteReader& reader) {
    std::uint64_t size = reader.number(4);
    const auto type = static_cast<FourCc>(reader.number(4));
    std::uint64_t header = 8;
    if (size == 1) {
        size = reader.number(8);
        header = 16;
    }
    if (!reader.ok() || size < header) return std::nullopt;
    const ByteSpan content = reader.take(size - header);
    if (!reader.ok()) return std::nullopt;
    return Box{type, content};
}

std::optional<std::vector<Box>> all_boxes(ByteSpan content) {
    ByteReader reader(content);
    std::vector<Box> boxes;
    while (!reader.at_end()) {
        const auto box = next_box(reader);
        if (!box) return std::nullopt;
        boxes.push_back(*box);
    }
    return boxes;
}

Outcome<Structure> read_structure(ByteSpan file, const StructureLimits& limits) {
    ByteReader reader(file);
    std::optional<ByteSpan> meta;
    for (int boxes = 0; const auto box = next_box(reader); ++boxes) {
        if (boxes == limits.boxes_of_file) return damaged_photo("too many boxes");
        if (box->type != four_cc("meta")) continue;
        if (meta) return damaged_photo("two lists of pictures");
        meta = box->content;
    }
    if (!meta) return damaged_photo("no list of pictures");
    if (meta->size() > limits.meta_bytes) return damaged_photo("too long a list of pictures");
    const auto parts = meta_parts(*meta);
    Structure structure;
    if (!parts || !read_infos(*parts->infos, structure.items, limits.items) ||
        !read_properties(*parts->properties, structure.items) ||
        !read_locations(*parts->locations, file, parts->data.value_or(ByteSpan{}), structure.items) ||
        (parts->references && !read_references(*parts->references, structure.references)))
        return damaged_photo("its list of pictures");
    FullBox primary(*parts->primary);
    structure.primary = static_cast<ItemId>(primary.content.number(primary.id_width()));
    return structure;
}

}  // namespace ridgetally::heif
