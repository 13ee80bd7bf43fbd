#include "lattice/choose.h"

#include <gtest/gtest.h>

namespace ridgetally {
namespace {

const FamilyPrior sc{StitchFamily::sc, 0.89, 0.11, 0.25, {1, 2}};
const FamilyPrior dc{StitchFamily::dc, 1.76, 0.13, 0.5, {1, 2}};

Reading reading(double stitch_px, double row_px, int rows, StitchFamily family, double score) {
    Reading r;
    r.stitch_pitch_px = stitch_px;
    r.period_px = row_px * rows;
    r.rows_per_period = rows;
    r.family = family;
    r.stitch_score = 0.4;
    r.row_score = 0.2;
    r.score = score;
    return r;
}

Proposal proposal(double stitch_mm, double row_mm, double weight, StitchFamily family) {
    Proposal p;
    p.stitch_pitch_mm = stitch_mm;
    p.row_pitch_mm = row_mm;
    p.weight = weight;
    p.family[static_cast<std::size_t>(family)] = 0.9;
    p.round = 0.1;
    return p;
}

ChooseOptions blind() {
    ChooseOptions options;
    options.source = StitchSource::recognised;
    return options;
}

TEST(ChooseReading, TakesTheBestAndKeepsTheOthers) {
    const auto choice =
        choose_reading({reading(20, 18, 1, StitchFamily::sc, 0.6), reading(10, 9, 1, StitchFamily::sc, 0.3)},
                       {}, {sc}, 4.0, {});
    ASSERT_TRUE(choice.ok());
    EXPECT_DOUBLE_EQ(choice->reading.stitch_pitch_px, 20.0);
    EXPECT_NEAR(choice->stitch_margin, 0.3, 1e-12);
    EXPECT_EQ(choice->rivals.size(), 1U);
    EXPECT_TRUE(choice->rows_resolved);
}

TEST(ChooseReading, TakesTheRivalThatTheMakerAccepts) {
    const std::vector<Reading> readings = {reading(20, 18, 1, StitchFamily::sc, 0.60),
                                           reading(10, 9, 1, StitchFamily::sc, 0.59),
                                           reading(40, 36, 1, StitchFamily::sc, 0.30)};
    ChooseOptions options;
    options.accepted_rival = 2;
    const auto choice = choose_reading(readings, {}, {sc}, 4.0, options);
    ASSERT_TRUE(choice.ok()) << "what the maker decided is not ambiguous any more";
    EXPECT_DOUBLE_EQ(choice->reading.stitch_pitch_px, 40.0);
    EXPECT_TRUE(choice->rows_resolved);
    ASSERT_EQ(choice->rivals.size(), 2U);
    EXPECT_DOUBLE_EQ(choice->rivals.front().stitch_pitch_px, 20.0);
    EXPECT_DOUBLE_EQ(choice->rivals.back().stitch_pitch_px, 10.0);

    options.accepted_rival = 3;
    const auto none = choose_reading(readings, {}, {sc}, 4.0, options);
    ASSERT_FALSE(none.ok());
    EXPECT_EQ(none.refusal().code, "no-such-reading");
}

TEST(ChooseReading, RefusesTwoStitchesThatExplainThePictureAlike) {
    const auto choice = choose_reading(
        {reading(20, 18, 1, StitchFamily::sc, 0.60), reading(10, 9, 1, StitchFamily::sc, 0.59)}, {}, {sc},
        4.0, {});
    ASSERT_FALSE(choice.ok());
    EXPECT_EQ(choice.refusal().code, "ambiguous");
}

/// The refusal's message and hint in one.
std::string words_of(const Outcome<Choice>& choice) {
    return choice.refusal().message + " | " + choice.refusal().hint;
}

// 20 px at 4 px per mm are 5 mm: 20 stitches in 10 cm. Half as wide: 40.
TEST(ChooseReading, NamesTheReadingsThatItCannotTellApart) {
    const std::vector<Reading> tie = {reading(20, 18, 1, StitchFamily::sc, 0.60),
                                      reading(20, 36, 1, StitchFamily::dc, 0.595),
                                      reading(10, 9, 1, StitchFamily::sc, 0.59)};
    const std::string words = words_of(choose_reading(tie, {}, {sc}, 4.0, blind()));
    EXPECT_NE(words.find("either about 20.0 or about 40.0 stitches in 10 cm"), std::string::npos) << words;
    EXPECT_NE(words.find("--stitch"), std::string::npos) << words;
    EXPECT_NE(words.find("where there are about 40.0, add --reading 2"), std::string::npos) << words;

    // The promised number takes that reading.
    ChooseOptions accepted = blind();
    accepted.accepted_rival = 2;
    const auto taken = choose_reading(tie, {}, {sc}, 4.0, accepted);
    ASSERT_TRUE(taken.ok());
    EXPECT_DOUBLE_EQ(taken->reading.stitch_pitch_px, 10.0);

    const std::string told = words_of(choose_reading(tie, {}, {sc}, 4.0, {}));
    EXPECT_EQ(told.find("--stitch"), std::string::npos) << "it was told already: " << told;
    EXPECT_NE(told.find("--area"), std::string::npos) << told;

    ChooseOptions repeat = blind();
    repeat.stitches_per_repeat = 3;
    const std::string repeats = words_of(choose_reading(tie, {}, {sc}, 4.0, repeat));
    EXPECT_NE(repeats.find("either about 60.0 or about 120.0 stitches"), std::string::npos) << repeats;
}

TEST(ChooseReading, NamesTheStitchThatAProposalHoldsAgainstIt) {
    const auto refused = choose_reading({reading(40, 36, 1, StitchFamily::sc, 0.9)},
                                        {proposal(3.125, 2.7, 0.9, StitchFamily::sc)}, {sc}, 4.0, {});
    ASSERT_FALSE(refused.ok());
    const std::string words = words_of(refused);
    EXPECT_NE(words.find("either about 10.0 or about 32.0 stitches in 10 cm"), std::string::npos) << words;
    EXPECT_EQ(words.find("--reading"), std::string::npos) << "a proposal has no number: " << words;
}

TEST(ChooseReading, SaysThatRowsMayRunEitherWay) {
    Reading across = reading(20, 20, 1, StitchFamily::sc, 0.59);
    across.row_direction_rad = 1.5708;
    const auto refused =
        choose_reading({reading(20, 20, 1, StitchFamily::sc, 0.60), across}, {}, {sc}, 4.0, {});
    ASSERT_FALSE(refused.ok());
    const std::string words = words_of(refused);
    EXPECT_NE(words.find("its rows could run either of two ways"), std::string::npos) << words;
    EXPECT_NE(words.find("--rows"), std::string::npos) << words;
}

// Turned sc and dc in the round may repeat alike: two rows of 18 or one of 36.
TEST(ChooseReading, LeavesRowsOutWhereOnlyOneOrTwoAPeriodIsOpen) {
    const std::vector<Reading> tie = {reading(20, 36, 1, StitchFamily::dc, 0.6),
                                      reading(20, 18, 2, StitchFamily::sc, 0.6)};
    const auto alone = choose_reading(tie, {}, {sc, dc}, 4.0, blind());
    ASSERT_TRUE(alone.ok());
    EXPECT_FALSE(alone->rows_resolved);

    const auto unsure =
        choose_reading(tie, {proposal(5.0, 4.5, 0.6, StitchFamily::sc)}, {sc, dc}, 4.0, blind());
    ASSERT_TRUE(unsure.ok());
    EXPECT_FALSE(unsure->rows_resolved);

    const auto likely =
        choose_reading(tie, {proposal(5.0, 4.5, 0.8, StitchFamily::sc)}, {sc, dc}, 4.0, blind());
    ASSERT_TRUE(likely.ok());
    EXPECT_TRUE(likely->rows_resolved);
    // Not where a rival is nearly as likely, nor where the plain search hardly sees rows.
    const auto rivalled = choose_reading(
        tie, {proposal(5.0, 4.5, 0.8, StitchFamily::sc), proposal(5.0, 9.0, 0.6, StitchFamily::dc)}, {sc, dc},
        4.0, blind());
    ASSERT_TRUE(rivalled.ok());
    EXPECT_FALSE(rivalled->rows_resolved);
    auto faint = tie;
    for (auto& reading : faint) reading.row_score = 0.02;
    const auto unseen =
        choose_reading(faint, {proposal(5.0, 4.5, 0.8, StitchFamily::sc)}, {sc, dc}, 4.0, blind());
    ASSERT_TRUE(unseen.ok());
    EXPECT_FALSE(unseen->rows_resolved);

    const auto sure =
        choose_reading(tie, {proposal(5.0, 4.5, 0.98, StitchFamily::sc)}, {sc, dc}, 4.0, blind());
    ASSERT_TRUE(sure.ok());
    EXPECT_TRUE(sure->rows_resolved);
    EXPECT_DOUBLE_EQ(sure->reading.row_pitch_px(), 18.0);
    EXPECT_EQ(sure->stitch.family, StitchFamily::sc);
    EXPECT_EQ(sure->stitch.worked, Worked::flat);
    EXPECT_EQ(sure->stitch.source, StitchSource::recognised);
}

TEST(ChooseReading, UntoldStitchNeedsALikelyProposalOrAPlainLead) {
    const std::vector<Reading> near = {reading(20, 18, 1, StitchFamily::sc, 0.60),
                                       reading(10, 9, 1, StitchFamily::sc, 0.56)};
    EXPECT_FALSE(choose_reading(near, {}, {sc}, 4.0, blind()).ok());
    EXPECT_FALSE(choose_reading(near, {proposal(5.0, 4.5, 0.3, StitchFamily::sc)}, {sc}, 4.0, blind()).ok());
    EXPECT_TRUE(choose_reading(near, {proposal(5.0, 4.5, 0.7, StitchFamily::sc)}, {sc}, 4.0, blind()).ok());
    const std::vector<Reading> far = {reading(20, 18, 1, StitchFamily::sc, 0.60),
                                      reading(10, 9, 1, StitchFamily::sc, 0.40)};
    EXPECT_TRUE(choose_reading(far, {}, {sc}, 4.0, blind()).ok());
}

TEST(ChooseReading, PlainLeadMustBeWiderWhereNoProposalIsNear) {
    const std::vector<Reading> ahead = {reading(20, 18, 1, StitchFamily::sc, 0.60),
                                        reading(10, 9, 1, StitchFamily::sc, 0.50)};
    const auto with = [&](double weight) {
        return choose_reading(ahead, {proposal(5.0, 4.5, weight, StitchFamily::sc)}, {sc}, 4.0, blind());
    };
    EXPECT_TRUE(with(0.3).ok());
    ASSERT_FALSE(with(0.01).ok());
    EXPECT_EQ(with(0.01).refusal().code, "ambiguous");
    // Who tells the stitch has looked.
    EXPECT_TRUE(choose_reading(ahead, {}, {sc}, 4.0, {}).ok());
}

TEST(ChooseReading, ToldStitchIsNotTakenAgainstASureProposal) {
    const std::vector<Reading> wide = {reading(40, 36, 1, StitchFamily::sc, 0.9),
                                       reading(30, 27, 1, StitchFamily::sc, 0.5)};
    const auto narrow = [](double weight) { return proposal(3.0, 2.7, weight, StitchFamily::sc); };
    const auto refused = choose_reading(wide, {narrow(0.9)}, {sc}, 4.0, {});
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.refusal().code, "ambiguous");
    EXPECT_TRUE(choose_reading(wide, {narrow(0.5)}, {sc}, 4.0, {}).ok());
    // A sure proposal that agrees is none against the reading.
    EXPECT_TRUE(choose_reading(wide, {proposal(10.2, 9.1, 0.9, StitchFamily::sc)}, {sc}, 4.0, {}).ok());
}

TEST(ChooseReading, ProposalOfAnotherDirectionDoesNotCount) {
    auto across = proposal(5.0, 4.5, 1.0, StitchFamily::sc);
    across.row_direction_rad = 1.5708;
    const auto choice = choose_reading(
        {reading(20, 18, 1, StitchFamily::sc, 0.5), reading(30, 27, 1, StitchFamily::sc, 0.45)}, {across},
        {sc}, 4.0, {});
    ASSERT_TRUE(choice.ok());
    EXPECT_NEAR(choice->reading.score, 0.5, 0.01);
}

TEST(ChooseReading, RowsThatDoNotAgreeAreNotGiven) {
    auto blurred = reading(20, 18, 1, StitchFamily::sc, 0.6);
    blurred.row_score = 0.01;
    const auto choice = choose_reading({blurred}, {}, {sc}, 4.0, {});
    ASSERT_TRUE(choice.ok());
    EXPECT_FALSE(choice->rows_resolved);
    EXPECT_THROW((void)choose_reading({}, {}, {sc}, 4.0, {}), std::invalid_argument);
}

}  // namespace
}  // namespace ridgetally
