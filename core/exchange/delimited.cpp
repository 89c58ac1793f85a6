#include "core/exchange/delimited.h"

#include "core/exchange/words.h"

#include <QLocale>
#include <QRegularExpression>
#include <QSet>
#include <QStringDecoder>
#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>
#include <utility>

namespace washfast::exchange {

namespace {

constexpr char16_t replacement = 0xfffd;
constexpr std::array<char16_t, 3> separators { u'\t', u';', u',' }; // the rarer in headings, the stronger the evidence

QString sentenceFor(TableNoteKind kind)
{
    const auto say = [](const char* text) { return Words::tr(text); };
    switch (kind) {
    case TableNoteKind::Nothing:
        return say(QT_TRANSLATE_NOOP("Exchange", "The file has no headings and no rows."));
    case TableNoteKind::TooLarge:
        return say(QT_TRANSLATE_NOOP("Exchange", "The file is too large to be read as a table."));
    case TableNoteKind::NulCharacter:
        return say(QT_TRANSLATE_NOOP("Exchange",
            "There is a NUL character, so this is not a text table, or it is UTF-16 without a byte order mark. Save it "
            "as CSV in UTF-8."));
    case TableNoteKind::NotText:
        return say(
            QT_TRANSLATE_NOOP("Exchange", "This is a workbook or another packed file. Save the sheet as CSV first."));
    case TableNoteKind::EndlessHeading:
        return say(QT_TRANSLATE_NOOP("Exchange", "The quote that opens here, in the headings, is never closed."));
    case TableNoteKind::UnclosedQuote:
        return say(QT_TRANSLATE_NOOP(
            "Exchange", "The quote that opens here is never closed, so the rest of the file is in one cell."));
    case TableNoteKind::TextAfterQuote:
        return say(QT_TRANSLATE_NOOP("Exchange", "There is text between a closing quote and the end of its cell."));
    case TableNoteKind::TooManyCells:
        return say(QT_TRANSLATE_NOOP("Exchange", "The row has more cells than there are headings."));
    case TableNoteKind::TooFewCells:
        return say(QT_TRANSLATE_NOOP("Exchange", "The row has fewer cells than there are headings."));
    case TableNoteKind::BrokenCharacter:
        return say(QT_TRANSLATE_NOOP("Exchange", "There is a damaged character, shown as a replacement mark."));
    case TableNoteKind::OldEncoding:
        return say(QT_TRANSLATE_NOOP(
            "Exchange", "The file is not UTF-8 and was read as Windows-1252. Check letters with accents."));
    case TableNoteKind::StrayQuote:
        return say(QT_TRANSLATE_NOOP("Exchange", "A quote inside an unquoted cell was taken as it stands."));
    case TableNoteKind::EmptyHeading:
        return say(QT_TRANSLATE_NOOP("Exchange", "This column has no heading."));
    case TableNoteKind::RepeatedHeading:
        return say(QT_TRANSLATE_NOOP("Exchange", "There is an earlier column with the same heading."));
    }
    return {};
}

struct Place {
    qsizetype line = 1, column = 1;
};

/// Line and column of what follows a text.
Place placeAfter(QStringView text)
{
    Place place;
    for (qsizetype i = 0; i < text.size(); ++i) {
        const bool before_lf = i + 1 < text.size() && text[i + 1] == u'\n';
        if (text[i] == u'\n' || (text[i] == u'\r' && !before_lf))
            place = { place.line + 1, 1 };
        else if (!text[i].isLowSurrogate())
            ++place.column;
    }
    return place;
}

// ---- From bytes to text

// The upper half of Windows-1252 that differs from Latin-1, 0x80 to 0x9f; 0 where no character is assigned. Source: the
// Unicode Consortium's mapping table for Microsoft code page 1252.
constexpr std::array<char16_t, 32> windows_1252 { 0x20ac, 0, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6,
    0x2030, 0x0160, 0x2039, 0x0152, 0, 0x017d, 0, 0, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x02dc,
    0x2122, 0x0161, 0x203a, 0x0153, 0, 0x017e, 0x0178 };

QString fromWindows1252(QByteArrayView bytes)
{
    QString text(bytes.size(), Qt::Uninitialized);
    std::transform(bytes.begin(), bytes.end(), text.begin(), [](char byte) {
        const auto code = static_cast<unsigned char>(byte);
        if (code < 0x80 || code > 0x9f)
            return QChar(char16_t(code));
        const char16_t mapped = windows_1252[code - 0x80u];
        return QChar(mapped == 0 ? replacement : mapped);
    });
    return text;
}

/// Position of the first byte of the first line that is not valid UTF-8; line breaks are never part of a longer
/// character.
qsizetype firstInvalidLine(QByteArrayView bytes)
{
    qsizetype start = 0;
    for (qsizetype i = 0; i <= bytes.size(); ++i) {
        if (i < bytes.size() && bytes[i] != '\n' && bytes[i] != '\r')
            continue;
        if (!bytes.sliced(start, i - start).isValidUtf8())
            return start;
        start = i + 1;
    }
    return 0;
}

} // namespace

// ---- The parser

namespace {

class Reader {
public:
    Reader(const QByteArray& bytes, const DelimitedReadOptions& options)
        : options_(options)
    {
        if (decode(bytes))
            parse();
    }
    [[nodiscard]] DelimitedTable take() { return std::move(table_); }

private:
    struct Record {
        TableRow row;
        bool quoted = false, guarded = false; // has such a cell, so it has content even when all cells are blank
        bool open = false; // a quote is never closed
        Place open_place;
        std::vector<Place> starts; // of the cells
        Place end;
        std::vector<TableNote> notes;
        bool too_large = false;
        Place too_large_place;
    };

    void note(TableNoteKind kind, Place place)
    {
        const TableNote made { kind, place.line, place.column, sentenceFor(kind) };
        if (qsizetype(table_.notes.size()) < options_.limits.notes || made.weight() == TableNoteWeight::Refusal)
            table_.notes.push_back(made);
        else
            ++table_.notes_left_out;
    }
    bool refuse(TableNoteKind kind, Place place)
    {
        table_.rows.clear();
        note(kind, place);
        return false;
    }

    bool decode(const QByteArray& bytes);
    void checkCharacters();
    void parse();
    void checkHeader(const Record& record);
    void addRow(Record record);
    [[nodiscard]] QChar tellSeparator() const;

    /// Reads the record at the cursor; the cursor moves behind its line break.
    [[nodiscard]] Record readRecord(QChar separator);
    void skipBlankLines();
    void readQuoted(Record& record, QString& cell, QChar separator);
    void readPlain(Record& record, QString& cell, QChar separator);
    [[nodiscard]] static bool blank(const Record& record);
    [[nodiscard]] Place place() const { return { line_, 1 + at_ - line_start_ - pairs_ }; }
    [[nodiscard]] bool atEnd() const { return at_ >= text_.size(); }
    [[nodiscard]] bool atBreak() const { return text_[at_] == u'\n' || text_[at_] == u'\r'; }
    /// Moves over one character and keeps count of lines.
    QChar step()
    {
        const QChar c = text_[at_++];
        if (c == u'\n' || (c == u'\r' && !(at_ < text_.size() && text_[at_] == u'\n'))) {
            ++line_;
            line_start_ = at_;
            pairs_ = 0;
        } else if (c.isLowSurrogate()) {
            ++pairs_;
        }
        return c;
    }

    const DelimitedReadOptions& options_;
    DelimitedTable table_;
    QString text_;
    qsizetype at_ = 0, line_ = 1, line_start_ = 0,
              pairs_ = 0; // pairs: characters of two code units since the line began
};

bool Reader::decode(const QByteArray& bytes)
{
    if (bytes.size() > options_.limits.bytes)
        return refuse(TableNoteKind::TooLarge, {});
    if (bytes.startsWith("PK\x03\x04"))
        return refuse(TableNoteKind::NotText, {});
    const bool little = bytes.startsWith("\xff\xfe"), big = bytes.startsWith("\xfe\xff");
    if (little || big) {
        table_.encoding = little ? TextEncoding::Utf16LittleEndian : TextEncoding::Utf16BigEndian;
        QStringDecoder decoder(little ? QStringConverter::Utf16LE : QStringConverter::Utf16BE);
        text_ = decoder.decode(QByteArrayView(bytes).sliced(2, (bytes.size() - 2) & ~qsizetype(1)));
        if (bytes.size() % 2 != 0)
            text_ += QChar(replacement); // half a character at the end
        for (qsizetype i = 0; i < text_.size(); ++i) {
            const bool paired = text_[i].isHighSurrogate() ? i + 1 < text_.size() && text_[i + 1].isLowSurrogate()
                                                           : i > 0 && text_[i - 1].isHighSurrogate();
            if (text_[i].isSurrogate() && !paired)
                text_[i] = QChar(replacement);
        }
    } else {
        const bool marked = bytes.startsWith("\xef\xbb\xbf");
        const QByteArrayView body = QByteArrayView(bytes).sliced(marked ? 3 : 0);
        if (const qsizetype nul = body.indexOf('\0'); nul >= 0)
            return refuse(TableNoteKind::NulCharacter, placeAfter(QString::fromUtf8(body.first(nul))));
        if (body.isValidUtf8()) {
            text_ = QString::fromUtf8(body);
            return true; // a U+FFFD in valid UTF-8 is what the file says
        }
        table_.encoding = TextEncoding::Windows1252;
        text_ = fromWindows1252(body);
        note(TableNoteKind::OldEncoding, placeAfter(QString::fromUtf8(body.first(firstInvalidLine(body)))));
    }
    if (const qsizetype nul = text_.indexOf(QChar(u'\0')); nul >= 0)
        return refuse(TableNoteKind::NulCharacter, placeAfter(QStringView(text_).first(nul)));
    return true;
}

void Reader::readQuoted(Record& record, QString& cell, QChar separator)
{
    const Place opened = place();
    record.quoted = true;
    step();
    while (!atEnd()) {
        const QChar c = step();
        if (c != u'"') {
            cell += c;
            continue;
        }
        if (!atEnd() && text_[at_] == u'"') {
            cell += step();
            continue;
        }
        if (atEnd() || text_[at_] == separator || atBreak())
            return;
        record.notes.push_back({ TableNoteKind::TextAfterQuote, place().line, place().column, {} });
        while (!atEnd() && text_[at_] != separator && !atBreak())
            cell += step();
        return;
    }
    record.open = true;
    record.open_place = opened;
    record.notes.push_back({ TableNoteKind::UnclosedQuote, opened.line, opened.column, {} });
}

void Reader::readPlain(Record& record, QString& cell, QChar separator)
{
    bool stray = false;
    while (!atEnd() && text_[at_] != separator && !atBreak()) {
        if (text_[at_] == u'"' && !std::exchange(stray, true))
            record.notes.push_back({ TableNoteKind::StrayQuote, place().line, place().column, {} });
        cell += step();
    }
}

/// Moves to the start of the next line that has more than spaces, or to the end.
void Reader::skipBlankLines()
{
    qsizetype next = at_;
    while (next < text_.size() && text_[next].isSpace())
        ++next;
    if (next < text_.size())
        while (next > at_ && text_[next - 1] != u'\n' && text_[next - 1] != u'\r')
            --next;
    while (at_ < next)
        step();
}

Reader::Record Reader::readRecord(QChar separator)
{
    Record record;
    record.row.line = line_;
    for (;;) {
        const Place start = place();
        record.starts.push_back(start);
        QString cell;
        if (!atEnd() && text_[at_] == u'"')
            readQuoted(record, cell, separator);
        else
            readPlain(record, cell, separator);
        if (cell.size() > options_.limits.cell_characters
            || qsizetype(record.starts.size()) > options_.limits.columns) {
            record.too_large = true;
            record.too_large_place = start;
            return record;
        }
        if (table_.encoding != TextEncoding::Utf8 && cell.contains(QChar(replacement)))
            record.notes.push_back({ TableNoteKind::BrokenCharacter, start.line, start.column, {} });
        if (options_.unguard) {
            const auto as_written = cell.size();
            cell = unguardedText(cell);
            record.guarded = record.guarded || cell.size() < as_written;
        }
        record.row.cells.push_back(std::move(cell));
        if (atEnd() || text_[at_] != separator)
            break;
        step();
    }
    record.end = place();
    if (!atEnd() && step() == u'\r' && !atEnd() && text_[at_] == u'\n')
        step();
    return record;
}

/// Nothing but separators and spaces.
bool Reader::blank(const Record& record)
{
    return !record.quoted && !record.guarded
        && std::all_of(record.row.cells.begin(), record.row.cells.end(), [](const QString& cell) {
               return std::all_of(cell.begin(), cell.end(), [](QChar c) { return c.isSpace(); });
           });
}

/// Tries each separator on the headings and on the first rows: the one that gives several headings and rows of that
/// width.
QChar Reader::tellSeparator() const
{
    struct Trial {
        bool sound = false; // quotes of the headings close where cells end
        bool splits = false;
        bool rows_agree = false;
        qsizetype headings = 0;
        [[nodiscard]] auto rank() const { return std::tuple(splits && sound, splits && rows_agree, splits, headings); }
    };
    QChar best = u',';
    Trial best_trial;
    for (const char16_t separator : separators) {
        Reader probe(*this);
        Record header = probe.readRecord(separator);
        int looked_at = 0; // a file that begins with very many empty rows is not worth more
        while (!probe.atEnd() && !header.too_large && blank(header) && ++looked_at < 1000)
            header = probe.readRecord(separator);
        Trial trial;
        trial.headings = header.row.cells.size();
        trial.splits = trial.headings > 1;
        trial.sound = std::none_of(header.notes.begin(), header.notes.end(), [](const TableNote& n) {
            return n.kind == TableNoteKind::UnclosedQuote || n.kind == TableNoteKind::TextAfterQuote;
        });
        int seen = 0, agree = 0;
        for (probe.skipBlankLines(); trial.splits && seen < 5 && !probe.atEnd() && ++looked_at < 1000;
             probe.skipBlankLines()) {
            const Record row = probe.readRecord(separator);
            if (blank(row))
                continue;
            ++seen;
            agree += row.row.cells.size() == trial.headings ? 1 : 0;
        }
        trial.rows_agree = seen > 0 && agree == seen;
        // Among separators that fit all rows the rarer one wins, since decimal commas come in pairs by chance.
        const bool both_fit = trial.rows_agree && best_trial.rows_agree && trial.sound == best_trial.sound;
        if (!both_fit && trial.rank() > best_trial.rank()) {
            best = separator;
            best_trial = trial;
        }
    }
    return best_trial.splits ? best : QChar(u',');
}

void Reader::checkHeader(const Record& record)
{
    QSet<QString> seen;
    for (qsizetype i = 0; i < record.row.cells.size(); ++i) {
        const QString plain = record.row.cells[i].simplified().toCaseFolded();
        const Place start = record.starts[size_t(i)];
        if (plain.isEmpty())
            note(TableNoteKind::EmptyHeading, start);
        else if (seen.contains(plain))
            note(TableNoteKind::RepeatedHeading, start);
        seen.insert(plain);
    }
}

void Reader::addRow(Record record)
{
    const qsizetype wanted = table_.header.size(), found = record.row.cells.size();
    if (found > wanted)
        record.notes.push_back({ TableNoteKind::TooManyCells, record.starts[size_t(wanted)].line,
            record.starts[size_t(wanted)].column, {} });
    if (found < wanted)
        record.notes.push_back({ TableNoteKind::TooFewCells, record.end.line, record.end.column, {} });
    for (const TableNote& made : record.notes) {
        record.row.faulty = record.row.faulty || made.weight() == TableNoteWeight::Error;
        note(made.kind, { made.line, made.column });
    }
    table_.rows.push_back(std::move(record.row));
}

void Reader::parse()
{
    skipBlankLines();
    table_.separator = options_.separator ? *options_.separator : tellSeparator();
    bool headed = false;
    qsizetype cells = 0;
    for (; !atEnd(); skipBlankLines()) {
        Record record = readRecord(table_.separator);
        cells += record.row.cells.size();
        if (record.too_large || cells > options_.limits.cells
            || qsizetype(table_.rows.size()) >= options_.limits.rows) {
            refuse(TableNoteKind::TooLarge, record.too_large ? record.too_large_place : record.starts.front());
            return;
        }
        if (blank(record))
            continue;
        if (headed) {
            addRow(std::move(record));
            continue;
        }
        headed = true;
        table_.header = record.row.cells;
        table_.header_line = record.row.line;
        if (record.open) {
            refuse(TableNoteKind::EndlessHeading, record.open_place);
            return;
        }
        for (const TableNote& made : record.notes)
            note(made.kind, { made.line, made.column });
        checkHeader(record);
    }
    if (!headed)
        refuse(TableNoteKind::Nothing, {});
}

} // namespace

TableNoteWeight TableNote::weight() const
{
    if (kind <= TableNoteKind::EndlessHeading)
        return TableNoteWeight::Refusal;
    return kind <= TableNoteKind::BrokenCharacter ? TableNoteWeight::Error : TableNoteWeight::Warning;
}

QString TableNote::sentence() const
{
    return Words::tr("Line %1, column %2: %3").arg(line).arg(column).arg(says);
}

bool DelimitedTable::readable() const
{
    return notes.empty() || notes.back().weight() != TableNoteWeight::Refusal;
}

bool DelimitedTable::hasErrors() const
{
    return std::any_of(notes.begin(), notes.end(), [](const TableNote& n) {
        return n.weight() != TableNoteWeight::Warning;
    }) || std::any_of(rows.begin(), rows.end(), [](const TableRow& row) { return row.faulty; });
}

DelimitedTable readDelimited(const QByteArray& bytes, const DelimitedReadOptions& options)
{
    return Reader(bytes, options).take();
}

// ---- The writer

DelimitedCell DelimitedCell::text(QString text)
{
    DelimitedCell cell;
    cell.written_ = std::move(text);
    return cell;
}

DelimitedCell DelimitedCell::number(double value)
{
    DelimitedCell cell;
    cell.is_number_ = true;
    if (std::isnan(value))
        cell.written_ = QStringLiteral("NaN");
    else if (std::isinf(value))
        cell.written_ = value > 0 ? QStringLiteral("INF") : QStringLiteral("-INF");
    else
        cell.written_ = QString::number(value, 'g', QLocale::FloatingPointShortest);
    return cell;
}

DelimitedCell DelimitedCell::number(std::optional<double> value)
{
    return value ? number(*value) : DelimitedCell();
}

DelimitedWriter::DelimitedWriter(const DelimitedWriteOptions& options)
    : options_(options)
{
    if (options_.byte_order_mark)
        bytes_ = "\xef\xbb\xbf";
}

void DelimitedWriter::header(const QStringList& headings)
{
    QStringList written;
    for (const QString& heading : headings)
        written.push_back(options_.guard_formulas ? guardedText(heading) : heading);
    line(written, true);
}

namespace {

/// Of the text without the apostrophes before it; so a guard more or less changes nothing of the answer.
bool runsAsFormula(QStringView text)
{
    while (text.startsWith(u'\''))
        text = text.mid(1);
    if (text.isEmpty())
        return false;
    const QChar first = text.front();
    const bool control = first.category() == QChar::Other_Control && first != QChar(u'\0'); // NUL is never written
    const bool starts = control || QStringView(u"=+-@\uff1d\uff0b\uff0d\uff20").contains(first);
    static const QRegularExpression plain_number(
        QStringLiteral("\\A[-+]?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][-+]?[0-9]+)?\\z"));
    return starts && !plain_number.match(text).hasMatch();
}

} // namespace

QString guardedText(const QString& text)
{
    return runsAsFormula(text) ? u'\'' + text : text;
}

QString unguardedText(const QString& text)
{
    return text.startsWith(u'\'') && runsAsFormula(text) ? text.mid(1) : text;
}

void DelimitedWriter::row(const std::vector<DelimitedCell>& cells)
{
    QStringList written;
    written.reserve(qsizetype(cells.size()));
    for (const DelimitedCell& cell : cells)
        written.push_back(options_.guard_formulas && !cell.isNumber() ? guardedText(cell.written()) : cell.written());
    line(written, false);
}

void DelimitedWriter::line(const QStringList& cells, bool headings)
{
    const bool empty
        = std::all_of(cells.begin(), cells.end(), [](const QString& cell) { return cell.trimmed().isEmpty(); });
    for (qsizetype i = 0; i < cells.size(); ++i) {
        QString cell = cells[i];
        cell.replace(QChar(u'\0'), QChar(replacement));
        const bool breaks = std::any_of(cell.begin(), cell.end(), [&](QChar c) {
            return c == u'"' || c == u'\n' || c == u'\r' || c == options_.separator
                || (headings && std::find(separators.begin(), separators.end(), c.unicode()) != separators.end());
        });
        const bool first = i == 0 && (empty || cell.startsWith(u'#') || cell.startsWith(QChar(0xfeff)));
        if (i > 0)
            bytes_ += QString(options_.separator).toUtf8();
        if (breaks || first)
            cell = u'"' + cell.replace(u'"', QStringLiteral("\"\"")) + u'"';
        bytes_ += cell.toUtf8();
    }
    bytes_ += "\r\n";
}

} // namespace washfast::exchange
