#include "report/draw/lettering.h"

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>
#include <string>
#include <vector>

#include "report/draw/strokes.h"

namespace ridgetally {
namespace {

constexpr int face = cv::FONT_HERSHEY_SIMPLEX;
constexpr double face_cap_height_px =
    21.0;                             // of this alphabet at scale 1 (A. V. Hershey, 1967: coordinates -12..9)
constexpr double sign_advance = 1.0;  // of the added signs, over cap height
constexpr double degree_advance = 0.5;

enum class Sign { none, plus_minus, times, degree };

/// A run of ASCII letters, or one added sign.
struct Piece {
    std::string letters;
    Sign sign = Sign::none;
};

std::vector<Piece> pieces_of(std::string_view utf8) {
    std::vector<Piece> pieces;
    const auto letter = [&](char c) {
        if (pieces.empty() || pieces.back().sign != Sign::none) pieces.push_back({});
        pieces.back().letters += c;
    };
    for (std::size_t i = 0; i < utf8.size();) {
        const std::string_view rest = utf8.substr(i);
        std::size_t length = 1;
        if (rest.starts_with("\u00B1")) {
            pieces.push_back({{}, Sign::plus_minus});
        } else if (rest.starts_with("\u00D7")) {
            pieces.push_back({{}, Sign::times});
        } else if (rest.starts_with("\u00B0")) {
            pieces.push_back({{}, Sign::degree});
        } else {
            const auto c = static_cast<unsigned char>(rest.front());
            letter(c >= 0x20 && c < 0x7F ? rest.front() : '?');
        }
        while (i + length < utf8.size() && (static_cast<unsigned char>(utf8[i + length]) & 0xC0U) == 0x80U)
            ++length;
        i += length;
    }
    return pieces;
}

double width_of(const Piece& piece, double cap_height_px) {
    if (piece.sign == Sign::degree) return degree_advance * cap_height_px;
    if (piece.sign != Sign::none) return sign_advance * cap_height_px;
    int baseline = 0;
    return cv::getTextSize(piece.letters, face, cap_height_px / face_cap_height_px, 0, &baseline).width;
}

/// The strokes of a sign in units of the cap height, origin at the left end of the baseline, y up.
std::vector<std::vector<cv::Point2d>> strokes_of(Sign sign) {
    switch (sign) {
        case Sign::plus_minus:
            return {{{0.2, 0.55}, {0.8, 0.55}}, {{0.5, 0.25}, {0.5, 0.85}}, {{0.2, 0.0}, {0.8, 0.0}}};
        case Sign::times:
            return {{{0.25, 0.15}, {0.75, 0.65}}, {{0.25, 0.65}, {0.75, 0.15}}};
        case Sign::degree:
            return {{{0.1, 0.85},
                     {0.15, 0.95},
                     {0.25, 1.0},
                     {0.35, 0.95},
                     {0.4, 0.85},
                     {0.35, 0.75},
                     {0.25, 0.7},
                     {0.15, 0.75},
                     {0.1, 0.85}}};
        case Sign::none:
            break;
    }
    return {};
}

void draw_piece(cv::Mat& picture, const Piece& piece, const cv::Point2d& origin, double cap_height_px,
                const cv::Scalar& colour, double stroke_px) {
    if (piece.sign == Sign::none) {
        const cv::Point at(static_cast<int>(std::lround(origin.x)), static_cast<int>(std::lround(origin.y)));
        cv::putText(picture, piece.letters, at, face, cap_height_px / face_cap_height_px, colour,
                    std::max(1, static_cast<int>(std::lround(stroke_px))), cv::LINE_AA);
        return;
    }
    for (auto stroke : strokes_of(piece.sign)) {
        for (auto& p : stroke) p = {origin.x + p.x * cap_height_px, origin.y - p.y * cap_height_px};
        draw_stroke(picture, stroke, {colour, colour, stroke_px, 0.0});
    }
}

void draw_pass(cv::Mat& picture, const std::vector<Piece>& pieces, cv::Point2d at, const LetterStyle& style,
               const cv::Scalar& colour, double stroke_px) {
    for (const auto& piece : pieces) {
        draw_piece(picture, piece, at, style.cap_height_px, colour, stroke_px);
        at.x += width_of(piece, style.cap_height_px);
    }
}

}  // namespace

double text_width_px(std::string_view utf8, double cap_height_px) {
    double width = 0.0;
    for (const auto& piece : pieces_of(utf8)) width += width_of(piece, cap_height_px);
    return width;
}

void draw_text(cv::Mat& picture, std::string_view utf8, const cv::Point2d& origin, const LetterStyle& style) {
    const auto pieces = pieces_of(utf8);
    const double stroke_px = std::max(1.0, style.boldness * style.cap_height_px);
    if (style.halo_px > 0.0)
        draw_pass(picture, pieces, origin, style, style.halo, stroke_px + 2.0 * style.halo_px);
    draw_pass(picture, pieces, origin, style, style.colour, stroke_px);
}

}  // namespace ridgetally
