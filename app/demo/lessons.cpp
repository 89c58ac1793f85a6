// The sheets of each lesson: first as everybody makes them, then what was different in that lesson.
#include "app/demo/chance.h"
#include "app/demo/scenario.h"
#include "app/demo/words.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace washfast::demo {

namespace {

enum Negative { PlaneTree, Stairwell, Map, Leaves, Wedge, Strips };
enum Cover { Glass, LowIron, Acetate };

/// What all sheets of a lesson have in common.
struct Ways {
    int waves = 4, in_wave = 6;
    double first_light = 46.0, between_waves = 14.0; // minutes
    double dose_goal = 2.4; // J/cm2 at the paper, by which the time in the frame was chosen
    double expected_uva = 28.0; // W/m2 under the glass, as the teacher expects
    double dry_minutes = 36.0, dry_spread = 3.0;
    double coat = 20.0, coat_spread = 2.0;
    std::vector<int> mixes { 0 };
    std::vector<int> papers { 0, 1 };
    double plain_glass = 0.6; // how many have the one cover; the others have low-iron glass
};

Sky skyOf(double eighths, Chance& chance)
{
    // Seen by eye, a cloud cover says little about the ultraviolet of that moment.
    Sky sky;
    sky.eighths = int(std::clamp(std::lround(eighths), 0L, 8L));
    if (eighths < 3) {
        sky.factor = 1.0 - 0.01 * eighths;
        sky.disc = "yes";
    } else if (eighths < 6) {
        sky.factor = 0.88 - 0.05 * (eighths - 3.0);
        sky.disc = chance.happens(0.6) ? "yes" : "partly";
    } else {
        sky.factor = eighths < 7 ? 0.5 : 0.25;
        sky.disc = eighths < 7 ? "partly" : "no";
    }
    sky.factor *= 1.0 + chance.normal(0.05);
    return sky;
}

std::array<Sky, 3> skies(double eighths, Chance& chance)
{
    std::array<Sky, 3> all;
    for (auto& sky : all)
        sky = skyOf(std::clamp(eighths + chance.normal(0.4), 0.0, 8.0), chance);
    return all;
}

BathPlan acidBath(Chance& chance)
{
    BathPlan bath { "tap", "citric_acid", 10.0, 3.0, 2.0, 15.0, 2.3, false };
    bath.minutes += chance.normal(0.4);
    bath.ph += chance.normal(0.08);
    return bath;
}

BathPlan tapBath(double minutes, double ph, Chance& chance)
{
    BathPlan bath { "tap", "none", std::nullopt, minutes, 12.0, 13.0, ph, true };
    bath.minutes = std::max(2.0, minutes + chance.normal(0.06 * minutes));
    bath.litres = std::round(bath.minutes * 1.8);
    bath.temperature_c += chance.normal(0.8);
    bath.ph += chance.normal(0.08);
    return bath;
}

SheetPlan ordinary(const Ways& ways, int session, int number, int wave, Chance& chance)
{
    SheetPlan sheet;
    sheet.session = session;
    sheet.number = number;
    sheet.mix = chance.oneOf(ways.mixes);
    sheet.paper = chance.oneOf(ways.papers);
    sheet.cover = chance.happens(ways.plain_glass) ? Glass : LowIron;
    const bool objects = chance.happens(0.25);
    sheet.method = objects ? "objects" : "contact";
    sheet.negative = objects ? int(Leaves) : chance.below(int(Map) + 1);
    sheet.width_mm = 130.0 + 5.0 * chance.below(2);
    sheet.height_mm = 185.0 + 5.0 * chance.below(2);
    sheet.coat_ml_m2 = std::clamp(ways.coat + chance.normal(ways.coat_spread), 9.0, 48.0);
    sheet.tool = chance.happens(0.7) ? "brush" : "foam_brush";
    sheet.passes = 2 + chance.below(3);
    sheet.streaks = chance.happens(0.02);
    sheet.coat_minutes = chance.between(2.0, 4.0);
    sheet.dry_minutes = std::max(6.0, ways.dry_minutes + chance.normal(ways.dry_spread));
    sheet.dry_method = chance.happens(0.75) ? "hung" : "flat";
    sheet.expose_at = ways.first_light + ways.between_waves * wave + chance.between(-0.8, 0.8);
    sheet.expose_minutes = std::max(2.0, ways.dose_goal / ways.expected_uva * 1e4 / 60.0 + chance.normal(0.9));
    if (chance.happens(0.05))
        sheet.pause_minutes = 1.0 + chance.below(2);
    sheet.sky = skies(1.0, chance);
    sheet.sky_share = chance.between(0.85, 0.98);
    sheet.hold_minutes = chance.between(3.0, 8.0);
    sheet.baths = { acidBath(chance), tapBath(6.0, 7.3, chance) };
    sheet.tray = QStringLiteral("T%1").arg(1 + number % 3);
    return sheet;
}

void makeWedge(SheetPlan& sheet)
{
    sheet.method = "wedge";
    sheet.negative = int(Wedge);
    sheet.cover = int(Glass);
    sheet.expose_minutes += 5.0;
    sheet.pause_minutes = 0.0;
    sheet.sky_share = 0.95;
}

void makeStrip(SheetPlan& sheet)
{
    sheet.method = "strip";
    sheet.negative = int(Strips);
    sheet.strip_minutes = { 1.0, 1.0, 2.0, 4.0, 8.0 };
    sheet.expose_minutes = 16.0;
    sheet.pause_minutes = 0.0;
}

void makeControl(SheetPlan& sheet)
{
    sheet.method = "control";
    sheet.negative.reset();
    sheet.cover.reset();
    sheet.expose_minutes = 0.0;
    sheet.pause_minutes = 0.0;
}

/// Which of a wave's sheets something happens to: half of them, an odd one by chance.
std::vector<bool> halfOf(int count, Chance& chance)
{
    std::vector<char> marks(size_t(count), 0);
    const int half = count / 2 + (count % 2 != 0 && chance.happens(0.5) ? 1 : 0);
    std::fill_n(marks.begin(), half, 1);
    chance.shuffle(marks);
    return { marks.begin(), marks.end() };
}

using Sheets = std::vector<SheetPlan>;
/// Changes a wave's sheets to what this lesson did with them. One stream of chance for each sheet, one for the wave.
using Change = void (*)(Sheets& wave, int number_of_wave, std::vector<Chance>& own, Chance& together);

void firstTries(Sheets& wave, int number, std::vector<Chance>& own, Chance&)
{
    for (size_t i = 0; i < wave.size(); ++i) {
        auto& sheet = wave[i];
        sheet.coat_ml_m2 = own[i].between(12.0, 32.0);
        sheet.dry_minutes = own[i].between(19.0, 38.0);
        sheet.expose_minutes = own[i].between(5.0, 19.0);
        const double light = own[i].unit();
        sheet.coat_light = light < 0.6 ? "amber" : light < 0.8 ? "curtained" : "tubes";
        sheet.stray_light = light < 0.6 ? 0.0 : light < 0.8 ? own[i].between(0.01, 0.05) : own[i].between(0.04, 0.10);
        sheet.streaks = own[i].happens(0.15);
        sheet.sky = skies(2.0, own[i]);
        if (own[i].happens(0.2)) {
            sheet.place = "beside_wall";
            sheet.sky_share = own[i].between(0.5, 0.65);
        }
        if (std::string_view(sheet.method) == "objects" && own[i].happens(0.6))
            sheet.cover = own[i].happens(0.5) ? std::optional<int>(Acetate) : std::nullopt;
        sheet.baths = { tapBath(own[i].between(5.0, 12.0), 7.3, own[i]) };
    }
    if (number == 1)
        makeWedge(wave.back());
    if (number == 3)
        makeStrip(wave.back());
}

void twoMixes(Sheets& wave, int number, std::vector<Chance>&, Chance& together)
{
    const auto old = halfOf(int(wave.size()), together);
    for (size_t i = 0; i < wave.size(); ++i)
        wave[i].mix = old[i] ? 1 : 2;
    if (number == 1 || number == 2) {
        makeWedge(wave.back());
        wave.back().mix = number;
    }
    if (number == 0 || number == 3) {
        makeControl(wave.back());
        wave.back().mix = number == 0 ? 1 : 2;
    }
}

void theGoodOne(Sheets& wave, int number, std::vector<Chance>&, Chance&)
{
    if (number == 0 || number == 2)
        makeWedge(wave.back());
    if (number == 1)
        makeStrip(wave.back());
    if (number == 3)
        makeControl(wave.back());
}

/// One of each two sheets that dried for nearly the same time, so that drying cannot be what set the two halves apart.
std::vector<bool> halfDriedAlike(const Sheets& wave, Chance& chance)
{
    std::vector<size_t> order(wave.size());
    std::iota(order.begin(), order.end(), size_t(0));
    std::stable_sort(
        order.begin(), order.end(), [&](size_t a, size_t b) { return wave[a].dry_minutes < wave[b].dry_minutes; });
    std::vector<bool> marks(wave.size());
    for (size_t i = 0; i < order.size(); i += 2) {
        const bool first = chance.happens(0.5);
        marks[order[i]] = first;
        if (i + 1 < order.size())
            marks[order[i + 1]] = !first;
    }
    return marks;
}

void rinsedDamp(Sheets& wave, int number, std::vector<Chance>& own, Chance& together)
{
    const auto wet = halfDriedAlike(wave, together);
    // All wait for the break to end; the wave that was exposed first waits longest.
    for (size_t i = 0; i < wave.size(); ++i) {
        auto& sheet = wave[i];
        sheet.hold_place = Words::tr("blue folder");
        sheet.hold_minutes = 125.0 + 3.0 * number + own[i].between(-4.0, 4.0) - sheet.exposeEnd();
        sheet.water_taken_up = wet[i] ? own[i].between(0.24, 0.60) : own[i].between(0.0, 0.04);
        if (wet[i] && own[i].happens(0.3))
            sheet.notes = Words::tr("Limp and cool when it came out of the folder.");
    }
}

void lightLost(Sheets& wave, int number, std::vector<Chance>& own, Chance& together)
{
    const double eighths[] = { 3.0, 7.6, 7.3, 3.5, 7.8 };
    for (size_t i = 0; i < wave.size(); ++i) {
        wave[i].sky = skies(eighths[number], own[i]);
        if (eighths[number] > 7)
            for (auto& sky : wave[i].sky)
                sky.factor = std::min(sky.factor, 0.30);
        wave[i].expose_minutes = 11.0 + own[i].normal(0.5);
        wave[i].pause_minutes = 0.0;
    }
    std::vector<size_t> order { 0, 1, 2, 3, 4 };
    together.shuffle(order);
    if (eighths[number] > 7) {
        for (const size_t i : { order[0], order[1] })
            wave[i].expose_minutes = own[i].between(34.0, 38.0);
    } else {
        wave[order[0]].expose_minutes = own[order[0]].between(3.0, 4.0);
    }
}

void theTangle(Sheets& wave, int, std::vector<Chance>& own, Chance& together)
{
    const auto late = halfOf(int(wave.size()), together);
    for (size_t i = 0; i < wave.size(); ++i) {
        auto& sheet = wave[i];
        sheet.coat_ml_m2 = std::max(sheet.coat_ml_m2, 18.0);
        sheet.pause_minutes = 0.0;
        sheet.dry_method = "hung";
        sheet.expose_minutes = 11.5 + own[i].normal(0.5);
        if (!late[i])
            continue;
        // The whole wave is taken in together.
        const double end = sheet.exposeEnd();
        sheet.expose_minutes = 3.8 + own[i].normal(0.35);
        sheet.expose_at = end - sheet.expose_minutes;
        sheet.dry_minutes = own[i].between(8.5, 12.0);
        if (own[i].happens(0.2))
            sheet.notes = Words::tr("Second table.");
    }
}

void fourTrays(Sheets& wave, int number, std::vector<Chance>& own, Chance& together)
{
    std::vector<int> trays { 0, 1, 2, 3, 0, 1, 2, 3 };
    together.shuffle(trays);
    const auto chloride = halfOf(int(wave.size()), together);
    for (size_t i = 0; i < wave.size(); ++i) {
        auto& sheet = wave[i];
        sheet.mix = chloride[i] ? 8 : 7;
        if (std::string_view(sheet.method) == "objects" && own[i].happens(0.5))
            sheet.cover = int(Acetate);
        const bool alkaline = (trays[i] & 1) != 0;
        const bool longer = (trays[i] & 2) != 0;
        sheet.tray = QStringLiteral("T%1").arg(trays[i] + 1);
        sheet.baths = { acidBath(own[i]), tapBath(longer ? 24.0 : 6.0, alkaline ? 8.6 : 7.3, own[i]) };
        sheet.baths.back().running = false;
        sheet.baths.back().litres = 3.0;
    }
    if (number == 1 || number == 3)
        makeWedge(wave.back());
}

void splitSheets(Sheets& wave, int number, std::vector<Chance>& own, Chance&)
{
    for (size_t i = 0; i + 1 < wave.size(); i += 2) {
        auto& first = wave[i];
        auto& second = wave[i + 1];
        first.width_mm = 95.0;
        first.height_mm = 130.0;
        first.sheet_area_m2 = 0.105 * 0.148;
        second = first;
        first.half = "first_half";
        second.half = "second_half";
        ++second.number;
        second.maker = QString();
        first.sheet = second.sheet = QStringLiteral("D%1").arg(number * int(wave.size() / 2) + int(i / 2) + 1);
        second.dry_method = "dryer_hot";
        second.early_heat = true;
        second.hold_minutes += own[i + 1].between(-1.0, 1.0);
        first.dry_method = "hung";
    }
    for (auto& sheet : wave) {
        BathPlan last { "tap", "peroxide", 3.0, 1.0, 1.0, 16.0, 6.8, false };
        sheet.baths.push_back(last);
    }
}

struct Plan {
    Ways ways;
    Change change;
};

std::vector<Plan> plans()
{
    std::vector<Plan> all(8);
    all[0].change = firstTries;
    all[0].ways.mixes = { 0 };
    all[0].ways.papers = { 0, 1, 2 };
    all[0].ways.expected_uva = 27.0;
    all[1].change = twoMixes;
    all[1].ways.dose_goal = 3.0;
    all[2].change = theGoodOne;
    all[2].ways.mixes = { 3 };
    all[2].ways.dry_minutes = 42.0;
    all[2].ways.expected_uva = 32.0;
    all[2].ways.first_light = 58.0;
    all[3].change = rinsedDamp;
    all[3].ways.plain_glass = 1.0;
    all[3].ways.mixes = { 4 };
    all[3].ways.in_wave = 7;
    all[3].ways.dry_minutes = 43.0;
    all[3].ways.coat_spread = 1.2;
    all[3].ways.first_light = 57.0;
    all[3].ways.expected_uva = 29.0;
    all[4].change = lightLost;
    all[4].ways.plain_glass = 1.0;
    all[4].ways.mixes = { 5 };
    all[4].ways.waves = 5;
    all[4].ways.in_wave = 5;
    all[4].ways.dry_minutes = 40.0;
    all[4].ways.first_light = 56.0;
    all[4].ways.between_waves = 12.5;
    all[5].change = theTangle;
    all[5].ways.plain_glass = 1.0;
    all[5].ways.mixes = { 6 };
    all[5].ways.coat_spread = 1.5;
    all[5].ways.dry_minutes = 37.0;
    all[5].ways.first_light = 50.0;
    all[6].change = fourTrays;
    all[6].ways.papers = { 0, 1, 2 };
    all[6].ways.dose_goal = 2.8;
    all[6].ways.expected_uva = 33.0;
    all[7].change = splitSheets;
    all[7].ways.mixes = { 9 };
    all[7].ways.papers = { 0 };
    all[7].ways.dose_goal = 2.8;
    all[7].ways.expected_uva = 33.0;
    return all;
}

QStringList makersOf(const Lesson& lesson, Chance& chance)
{
    std::vector<QString> codes;
    for (int i = 1; i <= 26; ++i)
        codes.push_back(QStringLiteral("%1%2").arg(lesson.group).arg(i, 2, 10, QLatin1Char('0')));
    chance.shuffle(codes);
    return { codes.begin(), codes.end() };
}

} // namespace

std::vector<SheetPlan> planSheets(const Scenario& scenario, quint32 seed)
{
    std::vector<SheetPlan> sheets;
    const auto all = plans();
    for (size_t s = 0; s < all.size(); ++s) {
        const auto& [ways, change] = all[s];
        const auto stream = quint32(200 + 10 * s);
        Chance together(seed, stream, 0);
        const auto makers = makersOf(scenario.sessions[s], together);
        int number = 0;
        for (int wave = 0; wave < ways.waves; ++wave) {
            Sheets planned;
            std::vector<Chance> own;
            for (int i = 0; i < ways.in_wave; ++i) {
                own.emplace_back(seed, stream, quint32(++number));
                planned.push_back(ordinary(ways, int(s), number, wave, own.back()));
            }
            change(planned, wave, own, together);
            for (auto& sheet : planned) {
                if (const double early = 2.0 - sheet.coatStart(); early > 0) // nobody coats before the lesson
                    sheet.dry_minutes -= early;
                sheet.maker = makers[(sheet.number - 1) % int(makers.size())];
                if (sheet.half) // the halves of a sheet are one pupil's
                    sheet.maker = makers[(sheet.number - 1) / 2];
                sheets.push_back(std::move(sheet));
            }
        }
    }
    return sheets;
}

} // namespace washfast::demo
