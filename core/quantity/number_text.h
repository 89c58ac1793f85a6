// Numbers, moments, headings and units as a person types them into a table. Nothing here knows the notebook: a later
// step decides what a column means. What cannot be read for certain is refused with one plain sentence, never guessed.
//
//   parseNumber(u"~0,60")        0.6, Estimated
//   parseNumber(u"1,250")        Ambiguous: 1.25 or 1250, until the rest of its column tells
//   parseMoment(u"4/5/2026")     refused: April or May
//   splitHeading(u"volume_ml")   "volume", "ml"
//   convert(98.6, u"°F", u"°C")  37
#pragma once

#include <QDate>
#include <QString>
#include <QStringList>
#include <QStringView>
#include <QTime>
#include <optional>

namespace washfast {

/// What a mark at the number says about it: `~0.6` is an estimate, `0.6?` an assumption.
enum class NumberFlag { Plain, Estimated, Assumed };

/// Which character stands before the decimals. Mixed: the column has certain examples of both.
enum class DecimalMark { Undecided, Point, Comma, Mixed };

enum class NumberFault { None, Empty, NotANumber, Ambiguous, AgainstColumn, OutOfRange };

struct NumberText {
    std::optional<double> value; // as typed: "5 %" is 5, not 0.05
    NumberFlag flag = NumberFlag::Plain;
    QString unit; // canonical text of a known unit typed after the number ("%", "min"); empty when there is none
    bool point_assumed = false; // "1.250" with nothing to say which mark is meant was read as 1.25
    NumberFault fault = NumberFault::None;
    QString says; // one sentence when there is a fault

    [[nodiscard]] bool percent() const { return unit == QLatin1Char('%'); }
};

/// Reads one number: decimal point or comma, thousands in groups of three (the other mark, a space of any width, or an
/// apostrophe), an exponent, ASCII or Unicode minus, a unit that `convert` knows, `~` before and `?` after.
/// Undecided: "1,250" is refused as ambiguous, "1.250" is 1.25 with `point_assumed`, because the point is the mark of
/// the files that this program writes. At most 64 characters.
[[nodiscard]] NumberText parseNumber(QStringView text, DecimalMark column = DecimalMark::Undecided);

struct ColumnMark {
    DecimalMark mark = DecimalMark::Undecided;
    std::optional<qsizetype> point_at, comma_at; // first cell, from 0, that is certain evidence for each mark
};

/// Looks at a whole column; cells that are no numbers are passed over.
[[nodiscard]] ColumnMark decideDecimalMark(const QStringList& cells);

enum class MomentFault {
    None,
    Empty,
    NotAMoment,
    AmbiguousDay,
    ShortYear,
    NoSuchDay,
    NoSuchTime,
    NoSuchOffset,
    NeedsDate
};

/// What was typed, not yet a point in time: without an offset it is a reading of the local clock.
struct MomentText {
    std::optional<QDate> date;
    std::optional<QTime> time;
    std::optional<int> offset_s; // seconds east of UTC; Z is 0
    bool date_from_context = false; // the text had a time only
    MomentFault fault = MomentFault::None;
    QString says; // one sentence when there is a fault

    [[nodiscard]] bool ok() const { return fault == MomentFault::None; }
    /// ISO 8601 text of the parts that are there; empty when there is a fault.
    [[nodiscard]] QString iso() const;
};

/// Reads the calendar dates and clock times of ISO 8601-1:2019 in their extended form, with T or a space between and
/// with or without an offset, also 04.05.2026 (day first). 4/5/2026 is refused. `day` completes a text that is a time
/// only.
[[nodiscard]] MomentText parseMoment(QStringView text, std::optional<QDate> day = std::nullopt);

enum class UnitFrom { Nowhere, Brackets, Suffix };

struct Heading {
    QString name;
    QString unit; // as written; empty when there is none
    UnitFrom from = UnitFrom::Nowhere;
    bool unit_known = false; // `convert` knows it
};

/// "Rinse time [s]", "room temp (°F)", "Rinse time / min", "Rinse time, min" and "volume_ml" into name and unit. A
/// suffix is split off only when it is a known unit; look for the whole heading first, since `d_min` may be a name of
/// its own.
[[nodiscard]] Heading splitHeading(QStringView heading);

/// The one spelling this program uses for a unit ("ML" and "megalitres" are unknown, "ml" is "mL"); empty when unknown.
[[nodiscard]] QString canonicalUnit(QStringView unit);

/// A value in another unit of the same kind; nothing for an unknown pair. Equal texts always convert.
[[nodiscard]] std::optional<double> convert(double value, QStringView from, QStringView to);

} // namespace washfast
