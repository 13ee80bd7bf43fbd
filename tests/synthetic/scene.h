#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/stitch.h"
#include "synthetic/camera.h"

namespace ridgetally::synthetic {

/// Reflectance of a matt surface as an 8-bit sRGB colour, 0..255, blue first.
using Colour = cv::Vec3f;

/// How the yarn is built: strands twisted round each other, a soft single, or a knitted cord.
enum class YarnMake { plied, roving, cord };

struct Yarn {
    std::string name = "cream";
    YarnMake make = YarnMake::plied;
    int plies = 3;
    double lay_diameters = 3.0;                    ///< length of one turn of the twist, in yarn diameters
    std::vector<Colour> colours{{205, 225, 232}};  ///< one, or the stripes in turn
    int stripe_rows = 4;                           ///< rows of one stripe
    double heather = 0.1;                          ///< mottling of the colour, relative
    double fuzz = 0.3;                             ///< hairs a mm of yarn
    double slub = 0.06;                            ///< relative variation of the thickness along the yarn
};

/// How the maker's hand shapes every stitch; 1 and 0 are the drawing in stitch_paths.
struct StitchShape {
    double spread = 1.0;  ///< how far the legs stand apart, relative
    double loops = 0.0;   ///< how far the top loops stand out, yarn radii
    double wraps = 0.0;   ///< how far bars and wraps stand out, yarn radii
};

/// One round of a crown.
struct CrownRound {
    StitchFamily family = StitchFamily::sc;
    int stitches = 6;
    double height_mm = 5.0;
};

/// Whether every round is closed, or one round climbs into the next without a join and tapers off at the end.
enum class Joining { joined, spiral };

/// How a crown is worked: rounds from a start ring outwards, laid flat.
struct Crown {
    std::vector<CrownRound> rounds;  ///< inner first
    double ring_mm = 2.5;            ///< radius of the start ring's centre line, where the first round stands
    Joining joining = Joining::joined;
    double oval = 0.0;         ///< relative difference of its two diameters
    double rim_lift = 1.0;     ///< how far the last round's free loops stand up, yarn radii
    double wave_mm = 0.0;      ///< lift of a ruffled rim off the table
    double cup_mm = 0.0;       ///< lift of a rim that curls up evenly
    int rim_loops = 0;         ///< stray loops that stick out of the last round
    double increase_pull = 0;  ///< 0: stitches stand evenly; 1: their feet gather over the stitch below
};

/// A rectangular piece of fabric lying on the table, or a crown where `crown` is set (then `stitches`,
/// `rows` and the pitches only give the yarn's thickness and the unevenness).
struct Fabric {
    StitchFamily family = StitchFamily::sc;
    Worked worked = Worked::flat;
    int stitches = 20;
    int rows = 22;
    double stitch_pitch_mm = 6.0;
    double row_pitch_mm = 5.4;
    double yarn_radius_ratio = 0.22;  ///< yarn radius over stitch pitch
    double unevenness = 0.06;         ///< relative scatter of single stitches and rows
    double round_shift = 0.0;         ///< sideways shift of each round, in stitches (worked round)
    StitchShape shape;
    double lean = 0.08;    ///< slant of a stitch, in stitches a row
    double warp_mm = 1.5;  ///< amplitude of slow bends of rows and columns
    double taper = 0.0;    ///< relative change of the width from the first row to the last
    double curl_mm = 0.0;  ///< lift of the edges off the table
    double centre_x_mm = 0.0;
    double centre_y_mm = 0.0;
    double angle_deg = 0.0;  ///< of a row on the table, clockwise
    bool tail = true;        ///< a loose end of yarn at a corner
    std::optional<Crown> crown;
    Yarn yarn;
    std::uint64_t seed = 1;
};

enum class RulerMake { steel, wood, clear, tape, black, white };

/// Which units of a graduation have their fine marks, and whether blocks of alternating tone stand beside
/// them.
enum class FineMarks { everywhere, first_unit };
enum class Blocks { none, alternating };

/// One graduated edge.
struct Graduation {
    bool inch = false;
    int divisions = 1;  ///< marks a mm (1, 2) or an inch (8, 16)
    bool numerals = true;
    bool numerals_in_mm = false;     ///< 10, 20, 30 instead of 1, 2, 3
    bool numerals_reversed = false;  ///< counting down from the other end
    double mark_width_mm = 0.2;
    double longest_mm = 7.0;    ///< length of the cm or inch marks
    double finest_ratio = 0.5;  ///< shortest marks over longest
    double wear = 0.0;          ///< part of the marks rubbed off, 0..1
    FineMarks fine = FineMarks::everywhere;
    Blocks blocks = Blocks::none;  ///< beyond the longest marks and as high as they are long
};

struct Ruler {
    RulerMake make = RulerMake::steel;
    double length_mm = 200.0;
    double width_mm = 26.0;
    double thickness_mm = 0.8;
    double zero_mm = 5.0;  ///< from the ruler's end to the first mark
    std::optional<Graduation> upper = Graduation{};
    std::optional<Graduation> lower;
    double centre_x_mm = 0.0;
    double centre_y_mm = 0.0;
    double angle_deg = 0.0;
    double base_mm = 0.0;  ///< height of its underside above the table (laid over the fabric)
    std::optional<std::array<double, 2>> covered_mm;  ///< stretch hidden under a slip of paper
    std::uint64_t seed = 1;
};

enum class TableMake { plain, wood, cloth };

struct Table {
    TableMake make = TableMake::plain;
    Colour colour{200, 205, 210};
    double angle_deg = 0.0;  ///< of the grain or weave
    double contrast = 1.0;
    std::uint64_t seed = 1;
};

struct Light {
    double azimuth_deg = 130.0;  ///< where it comes from, clockwise from +x
    double elevation_deg = 50.0;
    double ambient = 0.45;  ///< part of the light that comes from everywhere
    double shadow_softness_mm = 2.0;
    double gradient = 0.15;  ///< relative fall-off across the picture
    double glare = 0.0;      ///< strength of a reflected lamp on shiny things, 0..1
    double exposure = 1.0;
    Colour tint{1.0F, 1.0F, 1.0F};
};

/// What lens and sensor add.
struct Sensor {
    double blur_px = 0.6;    ///< standard deviation of the point spread
    double motion_px = 0.0;  ///< length of a smear
    double motion_deg = 0.0;
    double noise = 1.5;      ///< standard deviation in the mid tones, 8-bit steps
    double vignette = 0.15;  ///< darkening in the corners
    double sharpen = 0.3;    ///< strength of the phone's own sharpening
};

/// Things that are not a crocheted or knitted swatch, lying on the table.
enum class TrapMake {
    // Cloths.
    weave,
    herringbone,
    corduroy,
    basket,
    checks,
    hand_woven,
    net,
    // Walls, floors, prints.
    bricks,
    tiles,
    honeycomb,
    grid,
    text,
    studs,
    // Things with marks or teeth.
    keyboard,
    piano,
    barcode,
    comb,
    fence,
    zip,
    notebook,
    pen_marks,
    // Round things.
    plate,
    coin,
    button,
    yarn_ball,
    rope_coil,
    // Evenly divided things that are no scales.
    chequered_border,
    film_strip,
    striped_tape,
    dominoes,
    zebra_crossing
};

/// Whether a thing has its own outline or is cut round, as a coaster is.
enum class TrapOutline { whole, round };

struct Trap {
    TrapMake make = TrapMake::weave;
    double centre_x_mm = 0.0;
    double centre_y_mm = 0.0;
    double width_mm = 120.0;
    double height_mm = 120.0;
    double angle_deg = 0.0;
    Colour colour{90, 90, 160};
    std::uint64_t seed = 1;
    TrapOutline outline = TrapOutline::whole;
};

/// Whether a strand looks like the first fabric's yarn or is bare of any relief: a hook, a finger.
enum class LooseMake { yarn, smooth };

/// One round strand that is no stitch.
struct LooseStrand {
    std::vector<Vec3> points;  ///< of its centre line, scene co-ordinates
    double radius_mm = 1.5;
    Colour colour{};
    LooseMake make = LooseMake::yarn;
};

/// Which lies on top where ruler and fabric meet.
enum class Order { fabric_over_ruler, ruler_over_fabric };

/// Everything in front of the camera; the same scene gives the same picture, byte for byte.
struct Scene {
    Camera camera;
    Table table;
    Light light;
    Sensor sensor;
    std::vector<Fabric> fabrics;
    std::vector<Ruler> rulers;
    std::vector<Trap> traps;
    std::vector<LooseStrand> strands;
    Order order = Order::fabric_over_ruler;
    int supersampling = 2;  ///< samples a pixel along each axis
    std::uint64_t seed = 1;
};

}  // namespace ridgetally::synthetic
