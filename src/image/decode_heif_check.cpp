#include "image/decode_heif_check.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <string_view>

#include "image/decode.h"
#include "image/decode_heif_hevc.h"

namespace ridgetally::heif {
namespace {

struct Size {
    std::int64_t width_px = 0;
    std::int64_t height_px = 0;
};

std::string text_of(const Size& size) {
    return std::to_string(size.width_px) + " x " + std::to_string(size.height_px);
}

/// The letters of a code, those that cannot be printed as "?".
std::string text_of(FourCc code) {
    std::string letters;
    for (int shift = 24; shift >= 0; shift -= 8) {
        const char letter = static_cast<char>(code >> shift & 0x7FU);
        letters += letter > ' ' && letter < 0x7F ? letter : '?';
    }
    return letters;
}

/// The one property of this type; none where the item has none or several.
std::optional<ByteSpan> only_property(const Item& item, FourCc type) {
    std::optional<ByteSpan> found;
    for (const Box& property : item.properties) {
        if (property.type != type) continue;
        if (found) return std::nullopt;
        found = property.content;
    }
    return found;
}

/// "ispe" (23008-12, 6.5.3).
std::optional<Size> declared_size(const Item& item) {
    const auto property = only_property(item, four_cc("ispe"));
    if (!property) return std::nullopt;
    ByteReader reader(*property);
    reader.number(4);  // version and flags
    const Size size{static_cast<std::int64_t>(reader.number(4)), static_cast<std::int64_t>(reader.number(4))};
    if (!reader.ok()) return std::nullopt;
    return size;
}

/// "auxC" (6.5.8) of transparency, by one of the names that libheif takes for it: of AVC, of HEVC (annex B)
/// and of ISO/IEC 23001-8.
bool is_transparency(const Item& item) {
    constexpr std::array<std::string_view, 3> names = {"urn:mpeg:avc:2015:auxid:1",
                                                       "urn:mpeg:hevc:2015:auxid:1",
                                                       "urn:mpeg:mpegB:cicp:systems:auxiliary:alpha"};
    return std::any_of(item.properties.begin(), item.properties.end(), [&](const Box& property) {
        if (property.type != four_cc("auxC") || property.content.size() < 4) return false;
        const ByteSpan text = property.content.subspan(4);
        return std::any_of(names.begin(), names.end(), [&](std::string_view name) {
            return text.size() >= name.size() &&
                   std::equal(name.begin(), name.end(), text.begin(),
                              [](char a, std::uint8_t b) { return static_cast<std::uint8_t>(a) == b; });
        });
    });
}

/// The data of a "grid" item (6.6.2.3.2).
struct Grid {
    std::size_t rows = 0, columns = 0;
    Size canvas;
};

std::optional<Grid> grid_of(const Item& item) {
    std::vector<std::uint8_t> data;
    for (const ByteSpan part : item.extents) data.insert(data.end(), part.begin(), part.end());
    ByteReader reader(data);
    reader.number(1);  // version
    const int width = (reader.number(1) & 1) != 0 ? 4 : 2;
    Grid grid;
    grid.rows = reader.number(1) + 1;
    grid.columns = reader.number(1) + 1;
    grid.canvas = {static_cast<std::int64_t>(reader.number(width)),
                   static_cast<std::int64_t>(reader.number(width))};
    if (!reader.ok()) return std::nullopt;
    return grid;
}

/// Blocks of HEVC have up to 64 pixels a side (ITU-T H.265, 7.4.3.2.1): coded pictures may be so much larger
/// than what they show.
constexpr std::int64_t block_px = 64;

/// Whether a picture of this size is what was declared.
bool agree(const Size& size, const Size& declared) {
    return std::abs(size.width_px - declared.width_px) <= block_px &&
           std::abs(size.height_px - declared.height_px) <= block_px;
}

/// Pixels decoded for each of the picture: its tiles and what they make up, or its colours and transparency.
constexpr double most_for_one = 2.5;

/// Adds up what decoding takes, picture by picture.
class Check {
  public:
    Check(const Structure& structure, std::size_t file_bytes, const ReadPhotoOptions& options)
        : structure_(structure), bytes_left_(file_bytes), options_(options) {
        // The limits upwards only: tiles are small.
        options_.min_megapixels = 0.0;
        options_.min_side_px = 1;
        for (const Reference& reference : structure.references) {
            if (reference.type == four_cc("dimg")) tiles_.emplace(reference.from, &reference.to);
            if (reference.type != four_cc("auxl")) continue;
            for (const ItemId master : reference.to) transparencies_.emplace(master, reference.from);
        }
    }

    std::optional<Refusal> with_transparency(ItemId id) {
        if (auto refusal = picture(id)) return refusal;
        return transparency_of(id);
    }

  private:
    const Item* find(ItemId id) const {
        const auto item = structure_.items.find(id);
        return item == structure_.items.end() ? nullptr : &item->second;
    }

    std::optional<Refusal> picture(ItemId id) {
        const Item* item = find(id);
        if (item == nullptr) return damaged_photo("a picture is missing");
        if (item->type == four_cc("hvc1")) return coded(id, *item);
        if (item->type == four_cc("grid")) return grid(id, *item);
        return unsupported_photo("HEIF, kind " + text_of(item->type));
    }

    std::optional<Refusal> transparency_of(ItemId master) {
        const auto [begin, end] = transparencies_.equal_range(master);
        for (auto place = begin; place != end; ++place) {
            const Item* item = find(place->second);
            if (item == nullptr || !is_transparency(*item)) continue;
            if (transparencies_.count(place->second) > 0)
                return damaged_photo("transparency of transparency");
            if (auto refusal = picture(place->second)) return refusal;
        }
        return std::nullopt;
    }

    /// Tiles may be shown twice; each is looked at once.
    std::optional<Refusal> coded(ItemId id, const Item& item) {
        auto known = coded_px_.find(id);
        if (known == coded_px_.end()) {
            const auto pixels = coded_pixels(item);
            if (!pixels.ok()) return pixels.refusal();
            known = coded_px_.emplace(id, *pixels).first;
        }
        return count(known->second);
    }

    std::optional<Refusal> count(std::int64_t pixels) {
        total_px_ += pixels;
        if (static_cast<double>(total_px_) / 1e6 <= most_for_one * options_.max_megapixels)
            return std::nullopt;
        return photo_refusal("too-large", "the picture is made of too many pixels",
                             "save the photo as an ordinary JPEG");
    }

    Outcome<std::int64_t> coded_pixels(const Item& item) {
        for (const ByteSpan part : item.extents) {
            // Parts that lie over one another would be looked at again and again.
            if (part.size() > bytes_left_) return damaged_photo("pictures overlap in the file");
            bytes_left_ -= part.size();
        }
        const auto configuration = only_property(item, four_cc("hvcC"));
        const auto declared = declared_size(item);
        if (!configuration || !declared) return damaged_photo("a picture without its properties");
        const auto stream = read_hevc_picture(*configuration, item.extents);
        if (!stream) return damaged_photo("the stream of a picture");
        const Size size{stream->width_px, stream->height_px};
        if (auto refusal = size_refusal(size.width_px, size.height_px, options_)) return *refusal;
        if (!agree(size, *declared))
            return damaged_photo("declared as " + text_of(*declared) + " pixels, coded as " + text_of(size));
        return size.width_px * size.height_px * stream->pictures;
    }

    std::optional<Refusal> grid(ItemId id, const Item& item) {
        const auto grid = grid_of(item);
        const auto declared = declared_size(item);
        if (!grid || !declared) return damaged_photo("a grid without its properties");
        if (auto refusal = size_refusal(grid->canvas.width_px, grid->canvas.height_px, options_))
            return refusal;
        if (!agree(grid->canvas, *declared))
            return damaged_photo("declared as " + text_of(*declared) + " pixels, put together as " +
                                 text_of(grid->canvas));
        if (auto refusal = count(grid->canvas.width_px * grid->canvas.height_px)) return refusal;
        const auto tiles = tiles_.find(id);
        if (tiles == tiles_.end() || tiles->second->size() != grid->rows * grid->columns)
            return damaged_photo("a grid without its tiles");
        return tiles_of(*grid, *tiles->second);
    }

    std::optional<Refusal> tiles_of(const Grid& grid, const std::vector<ItemId>& tiles) {
        // 48 megapixels in tiles of 512 x 512 are under 200, 108 in tiles of 256 x 256 some 1,650 (not
        // swept).
        constexpr std::size_t most_tiles = 4096;
        if (tiles.size() > most_tiles) return damaged_photo("a grid of too many tiles");
        const Item* first = find(tiles.front());
        const auto size = first == nullptr ? std::nullopt : declared_size(*first);
        if (!size) return damaged_photo("a tile without its properties");
        if (static_cast<std::int64_t>(grid.columns - 1) * size->width_px >= grid.canvas.width_px ||
            static_cast<std::int64_t>(grid.rows - 1) * size->height_px >= grid.canvas.height_px)
            return damaged_photo("tiles outside of the picture");
        if (static_cast<std::int64_t>(grid.columns) * size->width_px < grid.canvas.width_px ||
            static_cast<std::int64_t>(grid.rows) * size->height_px < grid.canvas.height_px)
            return damaged_photo("tiles that do not cover the picture");
        for (const ItemId id : tiles) {
            const Item* tile = find(id);
            const auto tile_size = tile == nullptr ? std::nullopt : declared_size(*tile);
            if (!tile_size || tile->type != four_cc("hvc1") || tile_size->width_px != size->width_px ||
                tile_size->height_px != size->height_px)
                return damaged_photo("tiles of several sizes or kinds");
            if (auto refusal = with_transparency(id)) return refusal;
        }
        return std::nullopt;
    }

    const Structure& structure_;
    std::size_t bytes_left_;
    ReadPhotoOptions options_;
    std::multimap<ItemId, ItemId> transparencies_;  ///< by their master
    std::map<ItemId, const std::vector<ItemId>*>
        tiles_;  ///< by their grid; the first list counts, as for libheif
    std::map<ItemId, std::int64_t> coded_px_;
    std::int64_t total_px_ = 0;
};

}  // namespace

std::optional<Refusal> refusal_before_decoding(const Structure& structure, std::size_t file_bytes,
                                               const ReadPhotoOptions& options) {
    return Check(structure, file_bytes, options).with_transparency(structure.primary);
}

}  // namespace ridgetally::heif
