#include "synthetic/stitch_paths.h"

namespace ridgetally::synthetic {
namespace {

using Strands = std::vector<Strand>;

StrandPath mirrored(StrandPath path) {
    for (auto& p : path) p.x = 1.0 - p.x;
    return path;
}

/// The same strand, pushed up or down in the fabric.
StrandPath raised(StrandPath path, double z) {
    for (auto& p : path) p.z += z;
    return path;
}

Strands operator+(Strands a, const Strands& b) {
    a.insert(a.end(), b.begin(), b.end());
    return a;
}

/// One link of the chain along the top of a row; links overlap like a rope.
Strands top_loops(double z) {
    return {{Part::loop,
             {{-0.20, 0.88, z - 0.9},
              {0.10, 0.94, z - 0.1},
              {0.48, 1.02, z + 0.35},
              {0.82, 0.99, z},
              {1.16, 0.90, z - 0.9}}},
            {Part::loop, {{-0.05, 1.08, z - 1.3}, {0.42, 1.15, z - 0.9}, {0.95, 1.06, z - 1.3}}}};
}

Strands legs(const StrandPath& one, const StrandPath& other) {
    return {{Part::leg, one}, {Part::leg, other}};
}

Strands bar_of(const StrandPath& path) { return {{Part::bar, path}}; }

/// The far side of the fabric, seen through the holes.
Strands backing(double y) {
    return {{Part::backing, {{-0.1, y, -1.5}, {0.5, y + 0.05, -1.3}, {1.1, y, -1.5}}}};
}

Strands short_front() {
    const StrandPath leg{{0.50, -0.22, -0.9}, {0.44, -0.05, 0.5}, {0.34, 0.30, 1.3},
                         {0.21, 0.65, 1.1},   {0.10, 0.90, 0.2},  {0.02, 1.04, -0.9}};
    const StrandPath other{{0.52, -0.20, -1.0}, {0.57, -0.02, 0.4}, {0.68, 0.33, 1.25},
                           {0.82, 0.68, 1.1},   {0.95, 0.90, 0.1},  {1.05, 1.00, -0.9}};
    return backing(0.45) + top_loops(0.0) + legs(leg, other);
}

Strands short_back() {
    const StrandPath bar{
        {0.00, 0.50, -0.5}, {0.17, 0.60, 0.8}, {0.50, 0.68, 1.5}, {0.83, 0.61, 0.8}, {1.00, 0.48, -0.5}};
    const StrandPath leg{
        {0.46, -0.20, -0.7}, {0.37, 0.00, 0.6}, {0.28, 0.25, 0.9}, {0.22, 0.50, 0.2}, {0.20, 0.62, -0.7}};
    return backing(0.30) + top_loops(0.5) + legs(leg, mirrored(leg)) + bar_of(bar);
}

Strands loop_ridge() {
    return bar_of(
        {{-0.32, 0.92, 0.5}, {0.05, 0.95, 1.6}, {0.50, 1.03, 2.1}, {0.92, 1.04, 1.6}, {1.30, 0.97, 0.5}});
}

Strands half_double_front() {
    const StrandPath leg{
        {0.50, -0.15, -0.8}, {0.43, 0.00, 0.5}, {0.34, 0.35, 1.1}, {0.23, 0.68, 1.0}, {0.12, 0.92, 0.0}};
    const StrandPath wrap{
        {0.86, 0.22, -0.6}, {0.72, 0.42, 0.9}, {0.56, 0.62, 1.35}, {0.38, 0.80, 0.9}, {0.24, 0.92, -0.4}};
    return backing(0.35) + backing(0.7) + top_loops(0.2) + legs(leg, mirrored(leg)) + bar_of(wrap);
}

Strands half_double_back() {
    const StrandPath third_loop{
        {-0.22, 0.70, 0.2}, {0.12, 0.74, 1.3}, {0.50, 0.80, 1.8}, {0.86, 0.79, 1.3}, {1.20, 0.73, 0.2}};
    const StrandPath leg{
        {0.47, -0.15, -0.7}, {0.40, 0.02, 0.5}, {0.30, 0.30, 1.0}, {0.24, 0.55, 0.8}, {0.22, 0.74, -0.4}};
    return backing(0.35) + top_loops(0.5) + legs(leg, mirrored(leg)) + bar_of(third_loop);
}

/// The two strands of a post, wound about each other once.
Strands post(double top) {
    const StrandPath one{{0.42, -0.10, -0.6},     {0.35, 0.06, 0.6},       {0.40, 0.25 * top, 1.3},
                         {0.58, 0.50 * top, 0.9}, {0.60, 0.75 * top, 0.5}, {0.42, 0.94 * top, 0.6},
                         {0.15, top, -0.2}};
    const StrandPath two{{0.60, -0.10, -0.6},     {0.64, 0.06, 0.5},       {0.60, 0.25 * top, 0.6},
                         {0.42, 0.50 * top, 1.0}, {0.40, 0.75 * top, 1.2}, {0.58, 0.94 * top, 0.9},
                         {0.88, top, -0.2}};
    return legs(one, two);
}

Strands wrap_at(double y, double rise) {
    return bar_of({{0.14, y, -0.4},
                   {0.27, y + 0.15 * rise, 1.1},
                   {0.50, y + 0.5 * rise, 2.1},
                   {0.73, y + 0.85 * rise, 1.1},
                   {0.86, y + rise, -0.4}});
}

Strands tall(Face face, const Strands& wraps) {
    if (face == Face::front) return top_loops(0.5) + post(0.92) + wraps;
    Strands seen = top_loops(1.0) + post(0.88);
    for (const auto& w : wraps) seen.push_back({w.part, mirrored(w.path)});
    return seen + bar_of({{0.10, 0.83, -0.2},
                          {0.30, 0.87, 1.3},
                          {0.55, 0.89, 1.5},
                          {0.80, 0.86, 0.9},
                          {0.95, 0.82, -0.2}});
}

Strands stockinette() {
    const StrandPath leg{{0.52, -0.40, -1.1}, {0.44, -0.12, 0.5}, {0.33, 0.28, 1.1},
                         {0.23, 0.70, 1.0},   {0.14, 1.05, 0.2},  {0.08, 1.32, -1.1}};
    return backing(0.5) + legs(leg, mirrored(leg));
}

Strands back_loop(Face face, LoopRidge ridge) {
    Strands seen = face == Face::front ? short_front() : short_back();
    for (auto& strand : seen) strand.path = raised(strand.path, -0.35);
    return ridge == LoopRidge::facing ? seen + loop_ridge() : seen;
}

Strands drawing_of(StitchFamily family, Face face, LoopRidge ridge) {
    switch (family) {
        case StitchFamily::sc:
            return face == Face::front ? short_front() : short_back();
        case StitchFamily::sc_blo:
        case StitchFamily::sc_flo:
            return back_loop(face, ridge);
        case StitchFamily::hdc:
            return face == Face::front ? half_double_front() : half_double_back();
        case StitchFamily::hdc_blo: {
            const Strands body = face == Face::front ? half_double_front() : half_double_back();
            return ridge == LoopRidge::facing ? body + loop_ridge() : body;
        }
        case StitchFamily::dc:
            return tall(face, wrap_at(0.38, 0.16));
        case StitchFamily::tr:
            return tall(face, wrap_at(0.28, 0.11) + wrap_at(0.54, 0.11));
        case StitchFamily::stockinette:
            return stockinette();
    }
    return {};
}

}  // namespace

LoopRidge free_loops(StitchFamily family, Worked worked, Face face) {
    const bool through_front = family == StitchFamily::sc_flo;
    const bool next_shows_front = worked == Worked::round || face == Face::back;
    return through_front != next_shows_front ? LoopRidge::facing : LoopRidge::none;
}

std::vector<Strand> stitch_strands(StitchFamily family, Face face, LoopRidge ridge,
                                   const StitchShape& shape) {
    Strands strands = drawing_of(family, face, ridge);
    for (auto& strand : strands) {
        if (strand.part == Part::leg)
            for (auto& p : strand.path) p.x = 0.5 + shape.spread * (p.x - 0.5);
        if (strand.part == Part::loop) strand.path = raised(strand.path, shape.loops);
        if (strand.part == Part::bar) strand.path = raised(strand.path, shape.wraps);
    }
    return strands;
}

std::vector<Vec3> smooth_curve(const StrandPath& control, int steps) {
    std::vector<Vec3> out;
    const int last = static_cast<int>(control.size()) - 1;
    const auto at = [&](int i) { return control[static_cast<std::size_t>(std::min(std::max(i, 0), last))]; };
    for (int i = 0; i < last; ++i) {
        for (int k = 0; k < steps; ++k) {
            const double t = static_cast<double>(k) / steps;
            const Vec3 a = at(i - 1), b = at(i), c = at(i + 1), d = at(i + 2);
            out.push_back(b + (0.5 * t) * ((c - a) + t * ((2.0 * a - 5.0 * b + 4.0 * c - d) +
                                                          t * (3.0 * b - a - 3.0 * c + d))));
        }
    }
    out.push_back(at(last));
    return out;
}

}  // namespace ridgetally::synthetic
