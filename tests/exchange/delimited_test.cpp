// Reading and writing tables. Outside values: the examples of RFC 4180, section 2, and the Unicode Consortium's mapping
// table for code page 1252.
#include "core/exchange/delimited.h"

#include <QFile>
#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast::exchange;
using namespace Qt::StringLiterals;

namespace {

DelimitedTable read(const QByteArray& bytes)
{
    return readDelimited(bytes);
}

std::vector<QStringList> cells(const DelimitedTable& table)
{
    std::vector<QStringList> out;
    for (const TableRow& row : table.rows)
        out.push_back(row.cells);
    return out;
}

/// The first note of a kind.
std::optional<TableNote> noteOf(const DelimitedTable& table, TableNoteKind kind)
{
    for (const TableNote& note : table.notes)
        if (note.kind == kind)
            return note;
    return std::nullopt;
}

void expectNote(const DelimitedTable& table, TableNoteKind kind, qsizetype line, qsizetype column)
{
    const std::optional<TableNote> note = noteOf(table, kind);
    ASSERT_TRUE(note) << "no such note among " << table.notes.size();
    EXPECT_EQ(note->line, line);
    EXPECT_EQ(note->column, column);
    EXPECT_FALSE(note->says.isEmpty());
    EXPECT_EQ(note->sentence(), u"Line %1, column %2: %3"_s.arg(line).arg(column).arg(note->says));
}

} // namespace

// RFC 4180, section 2, rules 1 to 7, with its own examples.
TEST(Delimited, ReadsTheExamplesOfRfc4180)
{
    const std::vector<QStringList> two { { u"aaa"_s, u"bbb"_s, u"ccc"_s }, { u"zzz"_s, u"yyy"_s, u"xxx"_s } };
    const QByteArray head = "field_name,field_name2,field_name3\r\n";
    EXPECT_EQ(cells(read(head + "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n")), two);
    EXPECT_EQ(cells(read(head + "aaa,bbb,ccc\r\nzzz,yyy,xxx")), two); // the last line break may be missing
    EXPECT_EQ(cells(read(head + "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx")), two);
    const DelimitedTable broken = read(head + "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx");
    EXPECT_EQ(broken.rows[0].cells[1], u"b\r\nbb");
    EXPECT_EQ(broken.rows[1].line, 4); // the physical line
    EXPECT_EQ(read(head + "\"aaa\",\"b\"\"bb\",\"ccc\"").rows[0].cells[1], u"b\"bb");
    EXPECT_EQ(read(head + " aaa , b,c").rows[0].cells[0], u" aaa "); // spaces are part of a field
    EXPECT_TRUE(read(head + "aaa,bbb,ccc").notes.empty());
    EXPECT_EQ(read(head).header, (QStringList { u"field_name"_s, u"field_name2"_s, u"field_name3"_s }));
}

TEST(Delimited, TellsTheSeparatorFromTheHeadings)
{
    EXPECT_EQ(read("a,b\n1,2").separator, u',');
    EXPECT_EQ(read("a;b\n1,5;2,5").separator, u';');
    EXPECT_EQ(read("a\tb\n1\t2").separator, u'\t');
    EXPECT_EQ(read("\"a;b\",c,d\n1,2,3").separator, u','); // quotes are honoured
    EXPECT_EQ(read("\"a,b,c,d\";e\n1;2").separator, u';');
    EXPECT_EQ(read("\"a\n,,,\";b\n1;2").separator, u';');
    EXPECT_EQ(read("Rinse time, s;Room, °C\n60,5;21,5").separator, u';'); // commas fit as well, by chance
    EXPECT_EQ(read("code,\"kind; size\"\nA1,x").separator, u',');
    EXPECT_EQ(read("code,kind; size,c\nA1,x,2").separator, u',');
    EXPECT_EQ(read("code\nA1").separator, u',');
    DelimitedReadOptions forced;
    forced.separator = u';';
    EXPECT_EQ(readDelimited("a,b\n1,2", forced).header, QStringList { u"a,b"_s });
}

TEST(Delimited, TakesEveryLineBreak)
{
    for (const char* text :
        { "a,b\r\n1,2\r\n\r\n3,4\r\n", "a,b\n1,2\n\n3,4\n", "a,b\r1,2\r\r3,4\r", "a,b\r\n1,2\n\r3,4" }) {
        const DelimitedTable table = read(text);
        EXPECT_EQ(cells(table), (std::vector<QStringList> { { u"1"_s, u"2"_s }, { u"3"_s, u"4"_s } }));
        ASSERT_EQ(table.rows.size(), 2u);
        EXPECT_EQ(table.rows[0].line, 2);
        EXPECT_EQ(table.rows[1].line, 4);
    }
}

TEST(Delimited, SkipsLinesWithoutContent)
{
    const DelimitedTable table = read("\n  \na,b\n,\n , \n\"\",\n1,2\n\n");
    EXPECT_EQ(table.header_line, 3);
    EXPECT_EQ(
        cells(table), (std::vector<QStringList> { { u""_s, u""_s }, { u"1"_s, u"2"_s } })); // a quoted nothing is meant
    EXPECT_TRUE(table.notes.empty());
}

TEST(Delimited, ReadsItsEncodings)
{
    const QString text = u"code,été\nA1,µ 日 \U0001F9EA\n"_s;
    const QByteArray utf8 = text.toUtf8();
    const auto same = [&](const DelimitedTable& table) {
        EXPECT_TRUE(table.notes.empty());
        EXPECT_EQ(table.header, (QStringList { u"code"_s, u"été"_s }));
        EXPECT_EQ(cells(table), (std::vector<QStringList> { { u"A1"_s, u"µ 日 \U0001F9EA"_s } }));
    };
    same(read(utf8));
    same(read("\xef\xbb\xbf" + utf8));
    QByteArray little = "\xff\xfe", big = "\xfe\xff";
    for (const QChar c : text) {
        const char low = char(c.unicode() & 0xff), high = char(c.unicode() >> 8);
        little.append(low).append(high);
        big.append(high).append(low);
    }
    same(read(little));
    same(read(big));
    EXPECT_EQ(read(little).encoding, TextEncoding::Utf16LittleEndian);
    EXPECT_EQ(read(big).encoding, TextEncoding::Utf16BigEndian);
    const DelimitedTable cut = read(little + 'x');
    EXPECT_TRUE(cut.hasErrors());
    EXPECT_TRUE(noteOf(cut, TableNoteKind::BrokenCharacter));
}

// CP1252.TXT of the Unicode Consortium: 0x80 euro sign, 0x92 right single quotation mark, 0x99 trade mark sign, 0xB5
// micro sign, 0xE9 e with acute; 0x81 is undefined.
TEST(Delimited, FallsBackToWindows1252AndSaysSo)
{
    const DelimitedTable table = read("code,note\nA1,x\nA2,\x80\x92\x99\xb5\xe9\n");
    EXPECT_EQ(table.encoding, TextEncoding::Windows1252);
    EXPECT_EQ(table.rows[1].cells[1], u"\u20ac\u2019\u2122\u00b5\u00e9");
    expectNote(table, TableNoteKind::OldEncoding, 3, 1);
    EXPECT_FALSE(table.hasErrors()); // a warning
    const DelimitedTable undefined = read("code,note\nA1,\x81\n");
    expectNote(undefined, TableNoteKind::BrokenCharacter, 2, 4);
    EXPECT_TRUE(undefined.rows[0].faulty);
}

TEST(Delimited, PointsAtFaults)
{
    const DelimitedTable open = read("code,note\nA1,ok\nA2,\"never closed\nA3,lost\n");
    ASSERT_EQ(open.rows.size(), 2u);
    EXPECT_TRUE(open.rows[1].faulty);
    EXPECT_EQ(open.rows[1].cells[1], u"never closed\nA3,lost\n"); // nothing is dropped
    expectNote(open, TableNoteKind::UnclosedQuote, 3, 4);

    const DelimitedTable after = read("code,note\nA1,\"x\"yz,\nA2,b\n");
    expectNote(after, TableNoteKind::TextAfterQuote, 2, 7);
    EXPECT_EQ(after.rows[0].cells[1], u"xyz");
    EXPECT_TRUE(after.rows[0].faulty);
    EXPECT_FALSE(after.rows[1].faulty);

    const DelimitedTable more = read("code,note\n\"A\n1\",x,17,18\n");
    expectNote(more, TableNoteKind::TooManyCells, 3, 6); // after the line break inside the first cell
    EXPECT_EQ(more.rows[0].cells.size(), 4);
    EXPECT_TRUE(more.rows[0].faulty);

    const DelimitedTable fewer = read("code,note\nA1,x\nA2\n");
    expectNote(fewer, TableNoteKind::TooFewCells, 3, 3);
    EXPECT_TRUE(fewer.rows[1].faulty);
    EXPECT_EQ(fewer.rows[1].cells, QStringList { u"A2"_s });

    const DelimitedTable stray = read("code,note\nA1,12\" sheet\n");
    expectNote(stray, TableNoteKind::StrayQuote, 2, 6);
    EXPECT_EQ(stray.rows[0].cells[1], u"12\" sheet");
    EXPECT_FALSE(stray.hasErrors());

    const DelimitedTable headings = read("code,,Code \nA1,2,3\n");
    expectNote(headings, TableNoteKind::EmptyHeading, 1, 6);
    expectNote(headings, TableNoteKind::RepeatedHeading, 1, 7);
    EXPECT_FALSE(headings.hasErrors());
}

TEST(Delimited, CountsColumnsInCharacters)
{
    expectNote(read(u"a,b\n\U0001F9EA\U0001F9EAé,\"x\"y\n"_s.toUtf8()), TableNoteKind::TextAfterQuote, 2, 8);
}

TEST(Delimited, RefusesWhatIsNoTable)
{
    const auto refused = [](const DelimitedTable& table, TableNoteKind kind, qsizetype line, qsizetype column) {
        EXPECT_FALSE(table.readable());
        EXPECT_TRUE(table.hasErrors());
        EXPECT_TRUE(table.rows.empty());
        expectNote(table, kind, line, column);
    };
    refused(read(""), TableNoteKind::Nothing, 1, 1);
    refused(read("\xef\xbb\xbf"), TableNoteKind::Nothing, 1, 1);
    refused(read("\n , \n"), TableNoteKind::Nothing, 1, 1);
    refused(read(QByteArray("a,b\n1,\0002\n", 9)), TableNoteKind::NulCharacter, 2, 3);
    refused(read(QByteArray("\xff\xfe"
                            "a\0\n\0\0\0",
                8)),
        TableNoteKind::NulCharacter, 2, 1);
    refused(read("PK\x03\x04 and so on"), TableNoteKind::NotText, 1, 1);
    refused(read("code,\"note\nA1,x\n"), TableNoteKind::EndlessHeading, 1, 6);
}

TEST(Delimited, KeepsToItsLimits)
{
    DelimitedReadOptions small;
    small.limits = { .bytes = 60, .rows = 2, .columns = 3, .cells = 7, .cell_characters = 5, .notes = 2 };
    EXPECT_TRUE(readDelimited("a,b\n1,2\n3,4\n", small).readable());
    const auto large = [&](const QByteArray& bytes, qsizetype line) {
        const DelimitedTable table = readDelimited(bytes, small);
        EXPECT_FALSE(table.readable()) << bytes.toStdString();
        ASSERT_FALSE(table.notes.empty());
        EXPECT_EQ(table.notes.back().kind, TableNoteKind::TooLarge);
        EXPECT_EQ(table.notes.back().line, line);
    };
    large(QByteArray(61, 'a'), 1);
    large("a,b\n1,2\n3,4\n5,6\n", 4);
    large("a,b\n1,2,3,4\n", 2);
    large("a,b,c\n1,2,3\n4,5,6\n", 3);
    large("a,b\n1,123456\n", 2);
    small.limits.rows = 10;
    small.limits.cells = 20;
    const DelimitedTable table = readDelimited("a,b\n1\n2\n3\n4\n", small);
    EXPECT_EQ(table.notes.size(), 2u);
    EXPECT_EQ(table.notes_left_out, 2);
    EXPECT_TRUE(table.rows[3].faulty); // flagged all the same
}

TEST(DelimitedWriter, QuotesOnlyWhereNeeded)
{
    DelimitedWriter writer;
    writer.header({ u"code"_s, u"note; more"_s });
    writer.row({ DelimitedCell::text(u"A 1"_s), DelimitedCell::text(u"say \"so\", twice\nand end"_s) });
    writer.row({ DelimitedCell::text(u"#2"_s), DelimitedCell::text(u"a;b #"_s) });
    writer.row({ DelimitedCell::number(0.1), DelimitedCell::number(-1e-9) });
    writer.row({ DelimitedCell(), DelimitedCell::number(std::optional<double>()) });
    writer.row({ DelimitedCell(), DelimitedCell::number(0.0) });
    EXPECT_EQ(writer.bytes(),
        QByteArray("code,\"note; more\"\r\nA 1,\"say \"\"so\"\", twice\nand end\"\r\n\"#2\",a;b "
                   "#\r\n0.1,-1e-09\r\n\"\",\r\n,0\r\n"));
}

TEST(DelimitedWriter, HasOptions)
{
    DelimitedWriter writer({ .separator = u';', .byte_order_mark = true });
    writer.header({ u"é"_s, u"b"_s });
    writer.row({ DelimitedCell::text(u"a,b"_s), DelimitedCell::text(u"a;b"_s) });
    EXPECT_EQ(writer.bytes(), QByteArray("\xef\xbb\xbf\xc3\xa9;b\r\na,b;\"a;b\"\r\n"));
}

TEST(DelimitedWriter, GuardsWhatASpreadsheetWouldRun)
{
    const std::vector<DelimitedCell> row { DelimitedCell::text(u"=1+1"_s), DelimitedCell::text(u"+x"_s),
        DelimitedCell::text(u"@x"_s), DelimitedCell::text(u"-2-3"_s), DelimitedCell::text(u"-2,5"_s),
        DelimitedCell::number(-2.5), DelimitedCell::text(u"a=1"_s), DelimitedCell::text(u"\t=1"_s),
        DelimitedCell::text(u"\uff1d1"_s), DelimitedCell::text(u"-1.5e-3"_s), DelimitedCell::text(u"-5 min"_s) };
    DelimitedWriter guarded, plain({ .guard_formulas = false });
    guarded.header({ u"=h"_s });
    guarded.row(row);
    plain.row(row);
    EXPECT_EQ(guarded.bytes(),
        QByteArray("'=h\r\n'=1+1,'+x,'@x,'-2-3,\"-2,5\",-2.5,a=1,'\t=1,'\xef\xbc\x9d"
                   "1,-1.5e-3,'-5 min\r\n"));
    EXPECT_EQ(plain.bytes(),
        QByteArray("=1+1,+x,@x,-2-3,\"-2,5\",-2.5,a=1,\t=1,\xef\xbc\x9d"
                   "1,-1.5e-3,-5 min\r\n"));
}

// Whatever a text begins with, and however many apostrophes stand there already, it comes back as it was.
TEST(DelimitedWriter, GuardedTextsComeBack)
{
    std::mt19937 random(7);
    const QString letters = u"'''=+-@\t\r\n\"#,;~19.x\uff1d\ufeff"_s;
    std::vector<QString> texts { u"'"_s, u"''"_s, u"'="_s, u"''="_s, u"'-5"_s, u"-5"_s, u"'x"_s, u"\r"_s, u"=\r\n="_s };
    for (int i = 0; i < 20'000; ++i) {
        QString one;
        for (auto n = 1 + random() % 5; n > 0; --n)
            one += letters[qsizetype(random() % size_t(letters.size()))];
        texts.push_back(one);
    }
    DelimitedWriter writer;
    writer.header({ u"a"_s, u"b"_s });
    for (const QString& one : texts) {
        writer.row({ DelimitedCell::text(one), DelimitedCell::text(u"end"_s) });
        const QString written = guardedText(one);
        EXPECT_EQ(unguardedText(written), one);
        EXPECT_FALSE(QStringView(u"=@\t\r\n\uff1d").contains(written.front())) << one.toStdString();
    }
    const DelimitedTable table = read(writer.bytes());
    ASSERT_EQ(table.rows.size(), texts.size());
    for (size_t i = 0; i < texts.size(); ++i)
        EXPECT_EQ(table.rows[i].cells[0], texts[i]);
}

TEST(DelimitedWriter, NumbersReadBackExactly)
{
    std::mt19937_64 random(20260504);
    std::uniform_real_distribution<double> mantissa(-1, 1);
    std::uniform_int_distribution<int> exponent(-300, 300);
    for (int i = 0; i < 20'000; ++i) {
        const double value = std::ldexp(mantissa(random), exponent(random));
        EXPECT_EQ(DelimitedCell::number(value).written().toDouble(), value);
    }
    // XML Schema 1.1 part 2, section 3.3.5, which CSV on the Web takes over.
    EXPECT_EQ(DelimitedCell::number(std::nan("")).written(), u"NaN");
    EXPECT_EQ(DelimitedCell::number(-std::numeric_limits<double>::infinity()).written(), u"-INF");
}

namespace {

/// A table with everything that a reader has to cope with; every other one is sound.
QByteArray seedTable(int which, bool sound)
{
    QByteArray table
        = "code,\"rinse, s\",note;\xc3\xa9,mix\r\nA1,0.5,\"two\r\nlines\",m1\r\nA2,\"\",\"say \"\"so\"\"\",\r\n"
          "A3,12\" sheet,\xf0\x9f\xa7\xaa,m2\n\r\n,,,\r\n";
    if (!sound)
        table += "A4,1e-3\r\nA5,1,2,3,4,5\r\n\"A6\"x,1,2,3\r\n";
    if (which == 1)
        table.replace(',', ';');
    if (which == 2)
        table.replace("\r\n", "\r");
    if (which == 3) {
        QByteArray wide = "\xff\xfe";
        for (const QChar c : QString::fromUtf8(table))
            wide.append(char(c.unicode() & 0xff)).append(char(c.unicode() >> 8));
        return wide;
    }
    return table;
}

QByteArray mutated(QByteArray bytes, std::mt19937& random)
{
    const auto below = [&](qsizetype n) { return qsizetype(random() % quint32(std::max<qsizetype>(n, 1))); };
    static const QByteArray telling("\",;\t\r\n\0\xff\xfe\xc3\xef#=\x80", 14);
    for (qsizetype n = 1 + below(8); n > 0; --n) {
        const qsizetype at = below(bytes.size());
        switch (random() % 6) {
        case 0:
            bytes.insert(at, telling[below(telling.size())]);
            break;
        case 1:
            bytes.remove(at, 1 + below(4));
            break;
        case 2:
            if (!bytes.isEmpty())
                bytes[at] = char(random() & 0xff);
            break;
        case 3:
            if (!bytes.isEmpty())
                bytes[at] = telling[below(telling.size())];
            break;
        case 4:
            bytes.insert(at, bytes.mid(below(bytes.size()), below(40)));
            break;
        default:
            bytes.truncate(bytes.size() - below(bytes.size() / 4));
        }
    }
    return bytes;
}

} // namespace

// 20,000 damaged tables, the same every time: each is either read or refused with a place, and what is read can be
// written and read again without a difference.
TEST(Delimited, SurvivesDamage)
{
    std::mt19937 random(4180);
    int refused = 0, faulty = 0, clean = 0;
    for (int i = 0; i < 20'000 && !HasFailure(); ++i) {
        const QByteArray bytes = mutated(seedTable(i % 4, i % 8 < 4), random);
        SCOPED_TRACE(bytes.toPercentEncoding().toStdString());
        const DelimitedTable table = read(bytes);
        const qsizetype lines = 1 + bytes.count('\n') + bytes.count('\r');
        for (const TableNote& note : table.notes) {
            EXPECT_GE(note.line, 1);
            EXPECT_LE(note.line, lines + 256); // UTF-16 may have line breaks that are no such bytes in a row
            EXPECT_GE(note.column, 1);
            EXPECT_FALSE(note.says.isEmpty());
        }
        if (!table.readable()) {
            ++refused;
            EXPECT_TRUE(table.rows.empty());
            continue;
        }
        EXPECT_FALSE(table.header.isEmpty());
        bool any_faulty = false;
        qsizetype line = table.header_line;
        for (const TableRow& row : table.rows) {
            EXPECT_GT(row.line, line);
            line = row.line;
            EXPECT_TRUE(row.faulty || row.cells.size() == table.header.size());
            any_faulty = any_faulty || row.faulty;
        }
        ++(any_faulty ? faulty : clean);
        if (any_faulty) {
            EXPECT_TRUE(table.hasErrors());
        }
        DelimitedWriter writer({ .separator = table.separator });
        writer.header(table.header);
        for (const TableRow& row : table.rows) {
            std::vector<DelimitedCell> written;
            for (const QString& cell : row.cells)
                written.push_back(DelimitedCell::text(cell));
            writer.row(written);
        }
        const DelimitedTable again = read(writer.bytes());
        EXPECT_EQ(again.separator, table.header.size() > 1 ? table.separator : u',');
        EXPECT_EQ(again.header, table.header);
        EXPECT_EQ(cells(again), cells(table));
    }
    // All three ends are reached often enough for the above to mean something.
    EXPECT_GT(refused, 500);
    EXPECT_GT(faulty, 500);
    EXPECT_GT(clean, 500);
    RecordProperty("refused", refused);
    RecordProperty("faulty", faulty);
    RecordProperty("clean", clean);
}

TEST(Delimited, SurvivesNoise)
{
    std::mt19937 random(1252);
    for (int i = 0; i < 2'000; ++i) {
        QByteArray bytes(qsizetype(random() % 300), Qt::Uninitialized);
        for (char& byte : bytes)
            byte = char(random() % (i % 2 == 0 ? 256 : 128));
        const DelimitedTable table = read(bytes);
        if (table.readable())
            EXPECT_FALSE(table.header.isEmpty());
        else
            EXPECT_GE(table.notes.back().line, 1);
    }
}

} // namespace WASHFAST_FILE
