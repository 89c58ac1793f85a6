// All signs looked for in one photo of a rendered sheet, with what is said of those that were not found.
#include "core/density/propose_signs.h"
#include "tests/support/rendered_photo.h"

#include <QtConcurrent/QtConcurrentMap>
#include <algorithm>
#include <atomic>
#include <gmock/gmock.h>
#include <iostream>
#include <numbers>
#include <numeric>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using namespace washfast::test;

namespace {

constexpr double sheetWidth = 148, sheetHeight = 105; // mm

Scene sheetScene()
{
    Scene scene;
    scene.width = 640;
    scene.height = 480;
    scene.corners = { Point { 40, 30 }, { 600, 36 }, { 590, 446 }, { 44, 440 } };
    scene.patches = { { "print", 0, 0, 0.8, 1, { 0.9, 0.7, 0.4 } } };
    scene.noise = 2.0;
    scene.gradient = 0.05;
    return scene;
}

Corners there(const Scene& scene, double u, double v, double width, double height)
{
    return *Perspective::ontoCorners(scene.corners)->toPhoto(rectangle(u, v, width, height));
}

SheetPhoto photographed(const Scene& scene, unsigned seed)
{
    auto photo = readPhoto(encode(render(scene, seed), "jpeg", 92), QStringLiteral("sheet"));
    if (!photo)
        throw std::runtime_error(photo.error().sentence().toStdString());
    SheetPhoto sheet;
    sheet.photo = std::make_shared<const Photo>(std::move(*photo));
    sheet.corners = scene.corners;
    return sheet;
}

SignQuestion about(SheetPhoto sheet)
{
    SignQuestion question;
    question.now = std::move(sheet);
    question.width_mm = sheetWidth;
    question.height_mm = sheetHeight;
    return question;
}

const Looked& of(const Proposals& proposals, SignKind kind)
{
    for (const auto& looked : proposals.looked)
        if (looked.kind == kind)
            return looked;
    throw std::runtime_error("not looked at");
}

const Proposal* found(const Proposals& proposals, SignKind kind)
{
    for (const auto& one : proposals.found)
        if (one.sign.kind == kind)
            return &one;
    return nullptr;
}

std::function<double(double, double)> stripes(double direction, double spacing, double amplitude)
{
    const double radians = direction * std::numbers::pi / 180;
    return [=](double u, double v) {
        const double across = -std::sin(radians) * u * sheetWidth + std::cos(radians) * v * sheetHeight;
        return amplitude * std::sin(2 * std::numbers::pi * across / spacing);
    };
}

} // namespace

// The wished-for rates: stripes of 3 mm and 0.05 density from crest to trough in 95 of 100, none in 100 plain sheets.
// Measured (fixed seeds): found in 100 of 100, with spacing and direction right in 100; none in 100 plain sheets, and
// no other sign in them either.
TEST(ProposeSigns, RatesOfStripesFoundAndOfFalseAlarms)
{
    std::atomic<int> hits = 0, right = 0, alarms = 0, others = 0, failures = 0;
    std::vector<double> limits(100);
    std::vector<unsigned> seeds(100);
    std::iota(seeds.begin(), seeds.end(), 0u);
    QtConcurrent::blockingMap(seeds, [&](unsigned seed) {
        auto scene = sheetScene();
        scene.gradient = 0.15;
        scene.patches = { { "print", 0, 0, 1, 1, { 0.9, 0.7, 0.4 } } };
        const auto plain = proposeSigns(about(photographed(scene, 1000 + seed)));
        const double direction = seed * 1.8;
        scene.extra = stripes(direction, 3, 0.025);
        const auto striped = proposeSigns(about(photographed(scene, seed)));
        if (!plain || !striped) {
            ++failures;
            return;
        }
        const bool alarm = found(*plain, SignKind::Stripes) != nullptr;
        alarms += alarm;
        others += int(plain->found.size()) - alarm;
        limits[seed] = of(*plain, SignKind::Stripes).limit;
        if (const auto* one = found(*striped, SignKind::Stripes)) {
            ++hits;
            right += std::abs(*one->sign.spacing_mm - 3) < 0.2
                && std::abs(std::remainder(*one->sign.direction_deg - direction, 180)) <= 8;
        }
    });
    const double least = *std::max_element(limits.begin(), limits.end());
    std::cout << "stripes of 3 mm, 0.05 from crest to trough: found in " << hits
              << " of 100, with spacing and direction " << right << " of 100; false stripes in plain sheets: " << alarms
              << " of 100; other false signs: " << others << "; largest limit " << least << "\n";
    EXPECT_EQ(failures, 0);
    EXPECT_GE(hits, 95);
    EXPECT_GE(right, 90);
    EXPECT_EQ(alarms, 0);
    EXPECT_EQ(others, 0);
    EXPECT_GT(least, 0);
    EXPECT_LT(least, 0.025);
}

TEST(ProposeSigns, StripesAreSaidToGoAlongOrAcrossTheBrush)
{
    auto scene = sheetScene();
    scene.patches = { { "print", 0, 0, 1, 1, { 0.9, 0.7, 0.4 } } };
    scene.extra = stripes(90, 4, 0.03);
    auto question = about(photographed(scene, 1));
    const std::pair<std::optional<double>, BrushWay> ways[] = { { {}, BrushWay::Unknown }, { 90, BrushWay::Along },
        { 270, BrushWay::Along }, { 0, BrushWay::Across }, { 45, BrushWay::Aslant } };
    for (const auto& [brush, way] : ways) {
        question.brush_deg = brush;
        const auto proposals = proposeSigns(question);
        ASSERT_TRUE(proposals);
        const auto* one = found(*proposals, SignKind::Stripes);
        ASSERT_TRUE(one);
        EXPECT_EQ(one->brush, way);
        EXPECT_GT(one->sign.strength, one->limit);
        EXPECT_FALSE(one->sign.picture.isNull());
    }
}

TEST(ProposeSigns, WhatWasNotLookedForIsSaidWithItsReason)
{
    const auto proposals = proposeSigns(about(photographed(sheetScene(), 1)));
    ASSERT_TRUE(proposals);
    EXPECT_EQ(proposals->looked.size(), 7u);
    EXPECT_EQ(of(*proposals, SignKind::Fog).why, NotLooked::NoPaper);
    EXPECT_EQ(of(*proposals, SignKind::Stain).why, NotLooked::NoPaper);
    EXPECT_EQ(of(*proposals, SignKind::BleedingEdge).why, NotLooked::NoEdge);
    EXPECT_EQ(of(*proposals, SignKind::Loss).why, NotLooked::NoBefore);
    EXPECT_FALSE(proposals->sheet.isNull());
}

TEST(ProposeSigns, FogAndStainNeedThePaperAndAreReadAgainstIt)
{
    auto scene = sheetScene();
    scene.patches.push_back({ "covered", 0.82, 0.1, 0.16, 0.2, { 0.16, 0.14, 0.12 } });
    scene.patches.push_back({ "white", 0.82, 0.4, 0.16, 0.2, { 0.06, 0.07, 0.20 } });
    auto sheet = photographed(scene, 3);
    sheet.paper = there(scene, 0.84, 0.75, 0.12, 0.2);
    auto question = about(sheet);
    auto proposals = proposeSigns(question);
    ASSERT_TRUE(proposals);
    EXPECT_EQ(of(*proposals, SignKind::Fog).why, NotLooked::NoCovered);
    EXPECT_EQ(of(*proposals, SignKind::Stain).why, NotLooked::NoWhite);
    question.now.covered = there(scene, 0.84, 0.12, 0.12, 0.16);
    question.now.white = there(scene, 0.84, 0.42, 0.12, 0.16);
    proposals = proposeSigns(question);
    ASSERT_TRUE(proposals);
    ASSERT_TRUE(found(*proposals, SignKind::Fog));
    EXPECT_NEAR(found(*proposals, SignKind::Fog)->sign.strength, 0.08, 0.02); // visual density, mostly green
    ASSERT_TRUE(found(*proposals, SignKind::Stain));
    EXPECT_GT(found(*proposals, SignKind::Stain)->sign.strength, 5);
    EXPECT_FALSE(found(*proposals, SignKind::Stain)->sign.picture.isNull());
    // The paper against itself shows neither.
    question.now.covered = question.now.white = question.now.paper;
    proposals = proposeSigns(question);
    ASSERT_TRUE(proposals);
    EXPECT_FALSE(found(*proposals, SignKind::Fog));
    EXPECT_FALSE(found(*proposals, SignKind::Stain));
    EXPECT_EQ(of(*proposals, SignKind::Fog).why, NotLooked::No);
}

TEST(ProposeSigns, AnEdgeIsCutWhicheverWayItRuns)
{
    for (const bool upright : { true, false }) {
        auto scene = sheetScene();
        scene.patches = {};
        scene.gradient = 0;
        scene.extra = [upright](double u, double v) { // a ramp 4 mm wide: 3.2 mm from 10 to 90 %
            const double at = upright ? (u - 0.5) * sheetWidth : (v - 0.5) * sheetHeight;
            return 0.8 * std::clamp(at / 4 + 0.5, 0.0, 1.0);
        };
        auto sheet = photographed(scene, 5);
        sheet.edge = upright ? there(scene, 0.4, 0.3, 0.2, 0.3) : there(scene, 0.3, 0.38, 0.3, 0.24);
        const auto proposals = proposeSigns(about(sheet));
        ASSERT_TRUE(proposals);
        const auto* one = found(*proposals, SignKind::BleedingEdge);
        ASSERT_TRUE(one) << upright;
        EXPECT_NEAR(one->sign.strength, 3.2, 0.5) << upright;
    }
}

TEST(ProposeSigns, OnlyTheEvenPartIsSearched)
{
    auto scene = sheetScene(); // its right fifth is bare paper: an edge, and stripes only there
    const auto wave = stripes(0, 4, 0.04);
    scene.extra = [wave](double u, double v) { return u > 0.5 && u < 0.8 ? wave(u, v) : 0.0; };
    auto sheet = photographed(scene, 7);
    sheet.even = there(scene, 0.05, 0.05, 0.4, 0.9);
    const auto left = proposeSigns(about(sheet));
    ASSERT_TRUE(left);
    EXPECT_FALSE(found(*left, SignKind::Stripes));
    EXPECT_TRUE(left->found.empty());
    sheet.even = there(scene, 0.52, 0.05, 0.27, 0.9);
    const auto right = proposeSigns(about(sheet));
    ASSERT_TRUE(right);
    EXPECT_TRUE(found(*right, SignKind::Stripes));
}

TEST(ProposeSigns, WideBandsOfABroadBrushAreFound)
{
    for (const double direction : { 90.0, 0.0, 80.0 }) {
        auto scene = sheetScene();
        scene.patches = { { "print", 0, 0, 1, 1, { 0.9, 0.7, 0.4 } } };
        scene.extra = stripes(direction, 25, 0.03);
        const auto proposals = proposeSigns(about(photographed(scene, 9)));
        ASSERT_TRUE(proposals);
        const auto* one = found(*proposals, SignKind::Stripes);
        ASSERT_TRUE(one) << direction;
        EXPECT_NEAR(*one->sign.spacing_mm, 25, 3) << direction;
    }
}

// A motif without stripes: a leaf and round shapes at changing places, the whole sheet searched. It is taken for
// mottle, which is why the even part can be marked; stripes it should seldom be taken for. Measured (fixed seeds): 2 of
// 20, both of 36 mm, that is four waves on the sheet; 20 of 20 before edges were told from waves.
TEST(ProposeSigns, AMotifIsSeldomTakenForStripes)
{
    int alarms = 0, mottle = 0, hits = 0;
    const unsigned tries = 20;
    for (unsigned seed = 0; seed < tries; ++seed) {
        auto scene = sheetScene();
        const double x = 0.2 + 0.02 * double(seed % 10), r = 0.08 + 0.01 * double(seed % 7);
        scene.extra = [x, r](double u, double v) {
            if (u >= 0.8)
                return 0.0;
            const bool leaf = std::abs(v - 0.5) < 0.25 * std::sin(std::clamp((u - 0.3) / 0.45, 0.0, 1.0) * 3.14159);
            const bool round = std::hypot(u - x, (v - 0.2) * 0.7) < r || std::hypot(u - 0.6, (v - 0.85) * 0.7) < r / 2;
            return (leaf ? -0.45 : 0.0) + (round ? -0.3 : 0.0);
        };
        const auto proposals = proposeSigns(about(photographed(scene, seed)));
        ASSERT_TRUE(proposals);
        if (const auto* one = found(*proposals, SignKind::Stripes)) {
            ++alarms;
            std::cout << "try " << seed << ": every " << *one->sign.spacing_mm << " mm at " << *one->sign.direction_deg
                      << " degrees, " << one->sign.strength << " density\n";
        }
        mottle += found(*proposals, SignKind::Mottle) != nullptr;
        // And the same motif with stripes of 5 mm and 0.06 from crest to trough.
        const auto motif = scene.extra;
        const auto wave = stripes(30.0 + 5 * seed, 5, 0.03);
        scene.extra = [motif, wave](double u, double v) { return motif(u, v) + (u < 0.8 ? wave(u, v) : 0.0); };
        const auto striped = proposeSigns(about(photographed(scene, seed)));
        ASSERT_TRUE(striped);
        const auto* there = found(*striped, SignKind::Stripes);
        hits += there && std::abs(*there->sign.spacing_mm - 5) < 0.4;
    }
    std::cout << "motifs without stripes, of " << tries << ": taken for stripes " << alarms << ", for mottle " << mottle
              << "; stripes of 5 mm and 0.06 in them found: " << hits << "\n";
    EXPECT_LE(alarms, 3);
    EXPECT_GE(hits, 17);
}

TEST(ProposeSigns, LossWithTheSameZeroWhenPaperIsMarkedInBoth)
{
    auto scene = sheetScene();
    scene.extra = [](double u, double v) { return u < 0.75 && std::fmod(u * 7, 1.0) < 0.5 && v > 0.3 ? -0.3 : 0.0; };
    auto before = photographed(scene, 1);
    before.paper = there(scene, 0.84, 0.3, 0.12, 0.4);
    const auto drawing = scene.extra;
    scene.exposure = 0.6; // a darker photo: without the paper this would hide the loss
    scene.extra = [drawing](double u, double v) { return drawing(u, v) - (u < 0.8 ? 0.15 : 0.0); };
    auto after = photographed(scene, 2);
    after.paper = before.paper;
    auto question = about(after);
    question.before = before;
    const auto proposals = proposeSigns(question);
    ASSERT_TRUE(proposals);
    EXPECT_TRUE(proposals->one_zero);
    EXPECT_TRUE(proposals->alike);
    const auto* one = found(*proposals, SignKind::Loss);
    ASSERT_TRUE(one);
    EXPECT_NEAR(one->sign.strength, 0.15, 0.02);
    EXPECT_NEAR(*one->sign.share, 0.8, 0.05);
}

TEST(ProposeSigns, RefusesWhatIsNoSheetAndStopsWhenTold)
{
    const auto sheet = photographed(sheetScene(), 1);
    auto question = about(sheet);
    std::swap(question.now.corners[0], question.now.corners[1]);
    auto refused = proposeSigns(question);
    ASSERT_FALSE(refused);
    EXPECT_TRUE(refused.error().sentence().contains(QStringLiteral("corners")))
        << refused.error().sentence().toStdString();
    question = about(sheet);
    question.now.corners = rectangle(10, 10, 300, 20);
    EXPECT_FALSE(proposeSigns(question));
    question = about(sheet);
    question.width_mm = 0;
    EXPECT_FALSE(proposeSigns(question));
    question = about({});
    EXPECT_FALSE(proposeSigns(question));
    question = about(sheet);
    const std::atomic<bool> cancel = true;
    refused = proposeSigns(question, { {}, &cancel });
    ASSERT_FALSE(refused);
    double last = 0;
    const auto told = proposeSigns(question, { [&](double share) { last = std::max(last, share); }, nullptr });
    EXPECT_TRUE(told);
    EXPECT_DOUBLE_EQ(last, 1);
}

} // namespace WASHFAST_FILE
