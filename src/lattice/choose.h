#pragma once

#include <optional>
#include <vector>

#include "core/outcome.h"
#include "lattice/lattice.h"
#include "lattice/proposal.h"
#include "lattice/reading.h"

namespace ridgetally {

/// The reading that was settled on and how sure that is.
struct Choice {
    Reading reading;
    StitchReading stitch;
    double stitch_margin = 0.0;  ///< score above the best reading with another stitch pitch
    double row_margin = 0.0;     ///< score above the best one with this stitch pitch and other rows
    bool rows_resolved = true;
    /// Height of a row where the plain search hardly sees rows and a sure proposal does.
    std::optional<double> proposed_row_mm;
    std::vector<Reading> rivals;  ///< readings with other pitches, best first, at most three
};

struct ChooseOptions {
    StitchSource source = StitchSource::told;
    /// Readings nearer than this to their best rival are refused. Of 166 development photographs and renders
    /// read with the stitch told, two had a wrong stitch, with margins 0.012 and 0.020; two right ones lay
    /// below 0.025. Chosen on those pictures, so not a held-out figure.
    double least_margin = 0.025;
    /// A stitch is taken where a proposal gives it this chance, or the plain search leads by that margin
    /// (four times the largest margin of a wrong stitch above).
    double likely_proposal = 0.5;
    double sure_margin = 0.08;
    /// The margin where no proposal gives the stitch even that chance. Of 39 pictures read by the plain
    /// search's lead (photographs turned, mirrored, scaled and cut, and drawn ones), 11 had such faint
    /// proposals: ten right ones led by 0.12 or more, one wrong one by 0.085. Not held out.
    double faint_proposal = 0.1;
    double sure_margin_alone = 0.12;
    /// A proposal of this chance for another stitch is a contradiction that no told stitch overrides. Of 124
    /// development pictures with the stitch told two were contradicted: one wrong reading with 0.86, one
    /// right one with 0.56. Three to one, set between them.
    double contradicting_proposal = 0.75;
    /// Chance a proposal must give its reading for rows to be taken from it alone: that of the stated
    /// intervals.
    double sure_proposal = 0.95;
    /// Rows of a stitch that nobody told are taken, too, where the plain search sees them, a proposal of that
    /// weight agrees and both together lead other rows by that margin: two methods that agree are surer than
    /// either. Of 110 pictures (41 drawings, 69 photographs turned, mirrored, scaled and cut) where a
    /// proposal of a chance of 0.7 to 0.95 agreed, 109 were read within 10 %. Chosen on those, not held out.
    double likely_rows = 0.7;
    double clear_row_margin = 0.15;
    /// The same where the plain search hardly sees rows, so that nothing else agrees. Not swept: above what
    /// half a turn of one photo changed (0.947 to 0.958), below the 0.98 of a drawn double crochet read
    /// rightly.
    double sure_proposal_alone = 0.97;
    /// Rows that agree less with themselves, and have no sure proposal, are not resolved: out of focus, or
    /// fewer than two periods in view. The one wrong row among those pictures had 0.041; four right ones lay
    /// below 0.055 too.
    double least_row_comb = 0.055;
    /// Accepted by the maker: the rival of this number is taken, from 1 in the order of Choice::rivals; it is
    /// not judged any more. 0: the best reading.
    int accepted_rival = 0;
    /// What one visible period is made of (LatticeOptions); only the words of a refusal need it.
    int stitches_per_repeat = 1;
    int rows_per_repeat = 1;
};

/// Ranks the plain readings with what the proposals say (pitches in px of the search picture, `px_per_mm` of
/// it) and takes the best. Refuses with stage "lattice", code "ambiguous", and "no-such-reading" where there
/// is no rival of the accepted number. Throws std::invalid_argument for no readings.
[[nodiscard]] Outcome<Choice> choose_reading(std::vector<Reading> readings,
                                             const std::vector<Proposal>& proposals,
                                             const std::vector<FamilyPrior>& priors, double px_per_mm,
                                             const ChooseOptions& options);

}  // namespace ridgetally
