// The metadata document against the rules of the W3C Recommendations of 17 December 2015 that can be checked: Metadata
// Vocabulary for Tabular Data, and section 6.4 of Model for Tabular Data and Metadata on the Web.
#include "core/exchange/csvw.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QRegularExpression>
#include <QSet>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::exchange;
using namespace Qt::StringLiterals;

namespace {

CsvwTable prints()
{
    CsvwTable table;
    table.url = u"prints.csv"_s;
    table.title = u"Prints of a term"_s;
    table.columns = { { .name = u"code"_s, .titles = { u"code"_s }, .required = true },
        { .name = u"rinse_min"_s,
            .titles = { u"rinse_min"_s },
            .datatype = u"double"_s,
            .minimum = 0.0,
            .maximum = 240.0,
            .unit = u"min"_s,
            .description = u"Minutes in the rinse"_s },
        { .name = u"exposed_at"_s,
            .titles = { u"exposed_at"_s },
            .datatype = u"dateTime"_s,
            .format = u"yyyy-MM-ddTHH:mm:ssXXX"_s },
        { .name = u"under_open_sky"_s,
            .titles = { u"under_open_sky"_s },
            .datatype = u"boolean"_s,
            .format = u"yes|no"_s },
        { .name = u"outcome"_s,
            .titles = { u"outcome"_s },
            .choices = { u"kept"_s, u"ran off"_s },
            .list_separator = u"; "_s } };
    table.primary_key = { u"code"_s };
    return table;
}

QJsonObject column(const QJsonObject& document, int index)
{
    return document[u"tableSchema"_s][u"columns"_s][index].toObject();
}

CsvwTable with(CsvwColumn changed)
{
    CsvwTable table;
    table.url = u"t.csv"_s;
    table.columns = { std::move(changed) };
    return table;
}

// Section 5.11.1, as listed there.
const char* const published_datatypes[] = { "anyAtomicType", "anyURI", "base64Binary", "boolean", "date", "dateTime",
    "dateTimeStamp", "decimal", "integer", "long", "int", "short", "byte", "nonNegativeInteger", "positiveInteger",
    "unsignedLong", "unsignedInt", "unsignedShort", "unsignedByte", "nonPositiveInteger", "negativeInteger", "double",
    "duration", "dayTimeDuration", "yearMonthDuration", "float", "gDay", "gMonth", "gMonthDay", "gYear", "gYearMonth",
    "hexBinary", "QName", "string", "normalizedString", "token", "language", "Name", "NMTOKEN", "xml", "html", "json",
    "time", "number", "binary", "datetime", "any" };

} // namespace

TEST(Csvw, KnowsThePublishedDatatypes)
{
    QSet<QString> published;
    for (const char* name : published_datatypes)
        published.insert(QString::fromLatin1(name));
    const QStringList& known = csvwDatatypes();
    EXPECT_EQ(QSet<QString>(known.begin(), known.end()), published);
    EXPECT_EQ(known.size(), published.size()); // none twice
}

TEST(Csvw, DescribesATable)
{
    const Result<QJsonObject> made = csvwDocument(prints());
    ASSERT_TRUE(made.ok()) << made.error().says.toStdString();
    // Section 5.2: the context is the string, or an array of the string and an object with @language (or @base).
    const QJsonArray context = (*made)[u"@context"_s].toArray();
    ASSERT_EQ(context.size(), 2);
    EXPECT_EQ(context[0].toString(), u"http://www.w3.org/ns/csvw");
    EXPECT_EQ(context[1].toObject().keys(), QStringList { u"@language"_s });
    EXPECT_EQ((*made)[u"url"_s].toString(), u"prints.csv");
    EXPECT_EQ((*made)[u"dc:title"_s].toString(), u"Prints of a term");
    EXPECT_EQ((*made)[u"tableSchema"_s][u"primaryKey"_s].toString(), u"code");
    EXPECT_EQ((*made)[u"tableSchema"_s][u"columns"_s].toArray().size(), 5);
    const QJsonObject rinse = column(*made, 1);
    EXPECT_EQ(rinse[u"name"_s].toString(), u"rinse_min");
    EXPECT_EQ(rinse[u"titles"_s].toString(), u"rinse_min");
    EXPECT_EQ(rinse[u"schema:unitText"_s].toString(), u"min");
    EXPECT_EQ(rinse[u"dc:description"_s].toString(), u"Minutes in the rinse");
    EXPECT_EQ(rinse[u"datatype"_s][u"base"_s].toString(), u"double");
    EXPECT_EQ(rinse[u"datatype"_s][u"minimum"_s].toDouble(-1), 0.0);
    EXPECT_EQ(rinse[u"datatype"_s][u"maximum"_s].toDouble(-1), 240.0);
    EXPECT_EQ(column(*made, 0)[u"datatype"_s].toString(), u"string"); // nothing derived: a plain name
    EXPECT_TRUE(column(*made, 0)[u"required"_s].toBool());
    EXPECT_FALSE(rinse.contains(u"required"_s));
    EXPECT_EQ(column(*made, 4)[u"separator"_s].toString(), u"; ");
}

TEST(Csvw, UsesOnlyPropertiesOfTheVocabulary)
{
    // Sections 5.4 (tables), 5.5 (schemas), 5.6 (columns), 5.7 (inherited), 5.9 (dialects), 5.11.2 (derived datatypes).
    const QStringList of_table { u"url"_s, u"dialect"_s, u"notes"_s, u"suppressOutput"_s, u"tableDirection"_s,
        u"tableSchema"_s, u"transformations"_s, u"@context"_s };
    const QStringList of_column { u"name"_s, u"suppressOutput"_s, u"titles"_s, u"virtual"_s, u"aboutUrl"_s,
        u"datatype"_s, u"default"_s, u"lang"_s, u"null"_s, u"ordered"_s, u"propertyUrl"_s, u"required"_s,
        u"separator"_s, u"textDirection"_s, u"valueUrl"_s };
    const QStringList of_dialect { u"commentPrefix"_s, u"delimiter"_s, u"doubleQuote"_s, u"encoding"_s, u"header"_s,
        u"headerRowCount"_s, u"lineTerminators"_s, u"quoteChar"_s, u"skipBlankRows"_s, u"skipColumns"_s,
        u"skipInitialSpace"_s, u"skipRows"_s, u"trim"_s };
    const QStringList of_datatype { u"base"_s, u"format"_s, u"length"_s, u"minLength"_s, u"maxLength"_s, u"minimum"_s,
        u"maximum"_s, u"minInclusive"_s, u"maxInclusive"_s, u"minExclusive"_s, u"maxExclusive"_s };
    const auto check = [](const QJsonObject& object, const QStringList& allowed) {
        for (const QString& key :
            object.keys()) // common properties have a prefix: dc and schema are of the initial context of RDFa
            EXPECT_TRUE(allowed.contains(key) || key.startsWith(u"dc:") || key.startsWith(u"schema:"))
                << key.toStdString();
    };
    const Result<QJsonObject> made = csvwDocument(prints());
    ASSERT_TRUE(made.ok());
    check(*made, of_table);
    check((*made)[u"dialect"_s].toObject(), of_dialect);
    EXPECT_THAT((*made)[u"tableSchema"_s].toObject().keys(), testing::ElementsAre(u"columns"_s, u"primaryKey"_s));
    for (int i = 0; i < 5; ++i) {
        check(column(*made, i), of_column);
        check(column(*made, i)[u"datatype"_s].toObject(), of_datatype);
    }
}

TEST(Csvw, StatesTheDialectOfTheWriter)
{
    CsvwTable table = prints();
    table.separator = u';';
    const Result<QJsonObject> made = csvwDocument(table);
    ASSERT_TRUE(made.ok());
    const QJsonObject dialect = (*made)[u"dialect"_s].toObject();
    EXPECT_EQ(dialect[u"delimiter"_s].toString(), u";");
    EXPECT_EQ(dialect[u"encoding"_s].toString(), u"utf-8");
    EXPECT_EQ(dialect[u"lineTerminators"_s][0].toString(), u"\r\n");
    EXPECT_EQ(dialect[u"headerRowCount"_s].toInt(), 1);
    EXPECT_TRUE(dialect[u"doubleQuote"_s].toBool());
}

TEST(Csvw, ChoicesBecomeAnExactPattern)
{
    const Result<QJsonObject> made
        = csvwDocument(with({ .name = u"a"_s, .choices = { u"a.b"_s, u"c|d (e)"_s, u"1/2"_s } }));
    ASSERT_TRUE(made.ok());
    const QString format = column(*made, 0)[u"datatype"_s][u"format"_s].toString();
    const QRegularExpression whole(QRegularExpression::anchoredPattern(format));
    for (const QString& good : { u"a.b"_s, u"c|d (e)"_s, u"1/2"_s })
        EXPECT_TRUE(whole.match(good).hasMatch()) << good.toStdString();
    for (const QString& bad : { u"axb"_s, u"c"_s, u"d (e)"_s, u""_s })
        EXPECT_FALSE(whole.match(bad).hasMatch()) << bad.toStdString();
}

// RFC 6570 section 2.3, and the vocabulary on names: not starting with an underscore.
TEST(Csvw, ColumnNamesAreVariablesOfUriTemplates)
{
    for (const QString& good : { u"code"_s, u"rinse_min"_s, u"2nd"_s, u"a.b"_s, u"%C3%A9t%C3%A9"_s })
        EXPECT_TRUE(isCsvwColumnName(good)) << good.toStdString();
    for (const QString& bad :
        { u""_s, u"_code"_s, u"a b"_s, u"a-b"_s, u"a..b"_s, u".a"_s, u"a."_s, u"%C"_s, u"%zz"_s, u"é"_s, u"a\n"_s })
        EXPECT_FALSE(isCsvwColumnName(bad)) << bad.toStdString();
    for (const QString& heading : { u"Rinse time [s]"_s, u"été"_s, u""_s, u"_x"_s, u"100 %"_s, u"日"_s })
        EXPECT_TRUE(isCsvwColumnName(csvwColumnName(heading))) << heading.toStdString();
    EXPECT_EQ(csvwColumnName(u"rinse_min"_s), u"rinse_min");
    EXPECT_EQ(csvwColumnName(u"é"_s), u"%C3%A9"); // UTF-8 bytes, RFC 3986 section 2.5
}

TEST(Csvw, RefusesWhatTheVocabularyForbids)
{
    const auto says = [](const CsvwTable& table) { return csvwFaults(table).join(u' '); };
    EXPECT_EQ(says(prints()), QString());
    CsvwTable twice = prints();
    twice.columns.push_back(twice.columns.front());
    EXPECT_TRUE(says(twice).contains(u"two columns named “code”"));
    const Result<QJsonObject> refused = csvwDocument(twice);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.error().code, Trouble::BadInput);
    EXPECT_EQ(refused.error().where, u"prints.csv");
    CsvwTable key = prints();
    key.primary_key = { u"maker"_s };
    EXPECT_TRUE(says(key).contains(u"“maker”"));
    EXPECT_TRUE(says(with({ .name = u"a"_s, .datatype = u"real"_s })).contains(u"“real”"));
    EXPECT_TRUE(says(with({ .name = u"a b"_s })).contains(u"“a b”"));
    EXPECT_NE(says(with({ .name = u"a"_s, .minimum = 1.0 })), QString()); // limits of a text
    EXPECT_NE(says(with({ .name = u"a"_s, .datatype = u"double"_s, .minimum = 2.0, .maximum = 1.0 })), QString());
    EXPECT_NE(says(with({ .name = u"a"_s, .datatype = u"double"_s, .choices = { u"1"_s } })), QString());
    CsvwTable nowhere = prints();
    nowhere.url.clear();
    EXPECT_NE(says(nowhere), QString());
    CsvwTable bare;
    bare.url = u"t.csv"_s;
    EXPECT_NE(says(bare), QString());
}

// Model for Tabular Data, sections 6.4.2 to 6.4.4 and 6.4.6.
TEST(Csvw, FormatsFitTheirDatatypes)
{
    struct Case {
        const char16_t *datatype, *format;
        bool fits;
    };
    const Case cases[] = { { u"date", u"yyyy-MM-dd", true }, { u"date", u"d.M.yyyy", true },
        { u"date", u"dd/MM/yyyy", true }, { u"date", u"YYYY-MM-DD", false }, { u"date", u"yyyy-MM-dd HH:mm", false },
        { u"time", u"HH:mm:ss.SSS", true }, { u"time", u"HH:mm X", true }, { u"time", u"hh:mm", false },
        { u"dateTime", u"yyyy-MM-ddTHH:mm:ss", true }, { u"dateTime", u"yyyy-MM-ddTHH:mm:ss.SXXX", true },
        { u"dateTime", u"dd.MM.yyyy HH:mm", true }, { u"dateTime", u"yyyy-MM-dd", false },
        { u"dateTime", u"yyyy-MM-ddTHH:mmXXXX", false }, { u"double", u"#,##0.##", true },
        { u"double", u"0.000E0", true }, { u"integer", u"%d", false }, { u"boolean", u"yes|no", true },
        { u"boolean", u"Y", false }, { u"boolean", u"yes|yes", false }, { u"boolean", u"|no", false },
        { u"string", u"[A-Z][0-9]+", true }, { u"string", u"[A-Z", false } };
    for (const Case& one : cases)
        EXPECT_EQ(csvwFaults(with({ .name = u"a"_s,
                                 .datatype = QString::fromUtf16(one.datatype),
                                 .format = QString::fromUtf16(one.format) }))
                      .isEmpty(),
            one.fits)
            << QString::fromUtf16(one.datatype).toStdString() << ' ' << QString::fromUtf16(one.format).toStdString();
}

TEST(Csvw, DescribesAGroupOfTables)
{
    CsvwTable baths = with({ .name = u"print"_s });
    baths.url = u"baths.csv"_s;
    const Result<QJsonObject> made = csvwDocument(std::vector { prints(), baths }, u"Term"_s);
    ASSERT_TRUE(made.ok());
    EXPECT_EQ((*made)[u"tables"_s].toArray().size(), 2);
    EXPECT_EQ((*made)[u"tables"_s][1][u"url"_s].toString(), u"baths.csv");
    EXPECT_FALSE((*made)[u"tables"_s][0].toObject().contains(u"@context"_s)); // only once, at the top
    EXPECT_TRUE(made->contains(u"@context"_s));
    EXPECT_FALSE(csvwDocument(std::vector { prints(), prints() }).ok());
    EXPECT_FALSE(csvwDocument(std::vector<CsvwTable> {}).ok());
}

TEST(Csvw, IsFoundBesideItsTable)
{
    // Model for Tabular Data, section 5.3: {+url}-metadata.json
    EXPECT_EQ(csvwMetadataFileName(u"prints.csv"_s), u"prints.csv-metadata.json");
    const Result<QJsonObject> made = csvwDocument(prints());
    ASSERT_TRUE(made.ok());
    EXPECT_EQ(QJsonDocument::fromJson(csvwBytes(*made)).object(), *made);
}

} // namespace WASHFAST_FILE
