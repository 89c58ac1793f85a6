// Tables as text: RFC 4180 (Common Format and MIME Type for CSV Files, October 2005), read with tolerance, written
// strictly.
//
// Read: comma, semicolon or tab, told from the headings; CRLF, LF or CR; quoted cells with line breaks and doubled
// quotes; UTF-8 (with or without a byte order mark), UTF-16 with one, and Windows-1252 when the bytes are not valid
// UTF-8 (with a warning). Lines without any content are skipped. Nothing is dropped silently: whatever breaks a rule
// keeps its row and gets a note with its line and column, both from 1. Not read: files with NUL characters, files above
// the limits below, and files whose headings never end.
#pragma once

#include <QByteArray>
#include <QChar>
#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

namespace washfast::exchange {

struct DelimitedLimits {
    qsizetype bytes = 64 * 1024 * 1024;
    qsizetype rows = 1'000'000;
    qsizetype columns = 2'000;
    qsizetype cells = 5'000'000; // of all rows together
    qsizetype cell_characters = 1'000'000;
    qsizetype notes = 1'000; // further ones are only counted
};

enum class TextEncoding { Utf8, Utf16LittleEndian, Utf16BigEndian, Windows1252 };

enum class TableNoteKind {
    // The file cannot be read; there are no rows.
    Nothing, // no line with content
    TooLarge, // one of the limits
    NulCharacter,
    NotText, // a workbook or another archive
    EndlessHeading, // a quote in the headings is never closed
    // The row is kept as well as it can be, but must not be used as it is.
    UnclosedQuote, // at the opening quote; the row holds the rest of the file
    TextAfterQuote,
    TooManyCells, // at the first cell without a heading
    TooFewCells, // at the end of the row
    BrokenCharacter, // bytes that are no character in the encoding of the file
    // The table can be used.
    OldEncoding, // at the first line that is not UTF-8
    StrayQuote, // a quote inside an unquoted cell is kept as a character
    EmptyHeading,
    RepeatedHeading
};

enum class TableNoteWeight { Warning, Error, Refusal };

struct TableNote {
    TableNoteKind kind = TableNoteKind::Nothing;
    qsizetype line = 1, column = 1; // from 1; the column counts characters
    QString says; // one sentence without the place

    [[nodiscard]] TableNoteWeight weight() const;
    [[nodiscard]] QString sentence() const; // "Line 3, column 7: ..."
};

struct TableRow {
    qsizetype line = 1; // where the row starts in the file; a row with line breaks in its cells covers several
    QStringList cells; // as they stand, spaces included; may be more or fewer than the headings
    bool faulty = false; // has a note that weighs as an error
};

struct DelimitedTable {
    QStringList header;
    qsizetype header_line = 1;
    std::vector<TableRow> rows;
    QChar separator = u',';
    TextEncoding encoding = TextEncoding::Utf8;
    std::vector<TableNote> notes; // in the order of the file, those about its encoding first
    qsizetype notes_left_out = 0;

    /// False when the file was refused; the last note says why.
    [[nodiscard]] bool readable() const;
    [[nodiscard]] bool hasErrors() const; // a refusal or an error
};

struct DelimitedReadOptions {
    std::optional<QChar> separator; // told from the headings when not given
    DelimitedLimits limits;
    bool unguard = true; // takes the apostrophe of DelimitedWriteOptions::guard_formulas away again
};

[[nodiscard]] DelimitedTable readDelimited(const QByteArray& bytes, const DelimitedReadOptions& options = {});

/// One cell to be written. Missing is an empty cell; a number has the fewest digits that read back as the same number,
/// with a point, and NaN, INF and -INF as XML Schema and CSV on the Web spell them.
class DelimitedCell {
public:
    DelimitedCell() = default; // missing
    [[nodiscard]] static DelimitedCell text(QString text);
    [[nodiscard]] static DelimitedCell number(double value);
    [[nodiscard]] static DelimitedCell number(std::optional<double> value);

    [[nodiscard]] const QString& written() const { return written_; }
    [[nodiscard]] bool isNumber() const { return is_number_; }

private:
    QString written_;
    bool is_number_ = false;
};

struct DelimitedWriteOptions {
    QChar separator = u',';
    bool byte_order_mark = false;
    /// Spreadsheets run a text that starts with = + - @ or a control character as a formula. Such a text gets an
    /// apostrophe before it, see guardedText(). Off only where a file must be a copy of another, cell by cell.
    bool guard_formulas = true;
};

/// The text as it is written to a file that a spreadsheet may open: with an apostrophe before it when it would be run
/// as a formula, that is when it starts, behind any apostrophes, with = + - @ (also in their full width) or a control
/// character and is not a plain number such as -2.5. readDelimited() takes the one apostrophe away again, so that
/// every text comes back as it was.
[[nodiscard]] QString guardedText(const QString& text);
[[nodiscard]] QString unguardedText(const QString& text);

/// Writes UTF-8 with CRLF. A cell is quoted only where it must be: it has the separator, a quote or a line break; it is
/// the first of a row and starts with # (CSV on the Web takes that for a comment) or all cells of the row are empty (a
/// blank line would be skipped); or it is a heading with any of the three separators (so that the right one is told
/// from the headings). NUL characters, which no reader of tables takes, become U+FFFD.
class DelimitedWriter {
public:
    explicit DelimitedWriter(const DelimitedWriteOptions& options = {});
    void header(const QStringList& headings);
    void row(const std::vector<DelimitedCell>& cells);
    [[nodiscard]] const QByteArray& bytes() const { return bytes_; }

private:
    void line(const QStringList& cells, bool headings);

    DelimitedWriteOptions options_;
    QByteArray bytes_;
};

} // namespace washfast::exchange
