#include "core/exchange/csvw.h"

#include "core/exchange/words.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QRegularExpression>
#include <QSet>
#include <QUrl>
#include <algorithm>
#include <utility>

namespace washfast::exchange {

namespace {

QStringList words(const char* text)
{
    return QString::fromLatin1(text).split(u' ');
}

/// The datatypes by what a format and limits mean for them; sections 5.11.1 of the vocabulary and 6.4 of the model.
const QStringList& numeric()
{
    static const QStringList names
        = words("decimal integer long int short byte nonNegativeInteger positiveInteger unsignedLong "
                "unsignedInt unsignedShort unsignedByte nonPositiveInteger negativeInteger double "
                "float number");
    return names;
}

const QStringList& temporal()
{
    static const QStringList names = words("date dateTime dateTimeStamp datetime time");
    return names;
}

/// A format of these is a regular expression.
const QStringList& textual()
{
    static const QStringList names
        = words("string normalizedString token language Name NMTOKEN xml html json anyAtomicType any anyURI "
                "base64Binary binary "
                "duration dayTimeDuration yearMonthDuration gDay gMonth gMonthDay gYear gYearMonth hexBinary QName");
    return names;
}

/// The patterns for dates and times that every implementation has to know: section 6.4.4 of the model.
bool isMomentFormat(const QString& datatype, const QString& format)
{
    static const QString day
        = QStringLiteral("(?:yyyy-MM-dd|yyyyMMdd|dd-MM-yyyy|d-M-yyyy|MM-dd-yyyy|M-d-yyyy|dd/MM/yyyy|d/M/yyyy|"
                         "MM/dd/yyyy|M/d/yyyy|dd\\.MM\\.yyyy|d\\.M\\.yyyy|MM\\.dd\\.yyyy|M\\.d\\.yyyy)");
    static const QString clock = QStringLiteral("(?:HH:mm:ss(?:\\.S+)?|HHmmss|HH:mm|HHmm)");
    static const QString zone = QStringLiteral("(?: ?(?:X{1,3}|x{1,3}))?");
    static const QRegularExpression dates(u'^' + day + zone + u'$'), clocks(u'^' + clock + zone + u'$'),
        moments(QStringLiteral("^(?:yyyy-MM-ddTHH:mm(?::ss(?:\\.S+)?)?|") + day + u' ' + clock + u')' + zone + u'$');
    const QRegularExpression& wanted = datatype == u"date" ? dates : datatype == u"time" ? clocks : moments;
    return wanted.match(format).hasMatch();
}

bool formatFits(const CsvwColumn& column)
{
    if (column.format.isEmpty())
        return true;
    if (column.datatype == u"boolean") // "yes|no"
        return column.format.count(u'|') == 1 && column.format.size() >= 3 && column.format.front() != u'|'
            && column.format.back() != u'|' && column.format.section(u'|', 0, 0) != column.format.section(u'|', 1, 1);
    if (numeric().contains(column.datatype)) { // characters of a number pattern of UTS #35
        static const QRegularExpression pattern(QStringLiteral("^[-+%‰#0-9.,E;]+$"));
        return pattern.match(column.format).hasMatch();
    }
    if (temporal().contains(column.datatype))
        return isMomentFormat(column.datatype, column.format);
    return QRegularExpression(column.format).isValid();
}

QString choicesFormat(const QStringList& choices)
{
    QStringList escaped;
    for (const QString& choice : choices) {
        QString text;
        for (const QChar c : choice) { // the signs of ECMA-262 patterns; other signs must not be escaped there
            if (QStringLiteral("^$\\.*+?()[]{}|/").contains(c))
                text += u'\\';
            text += c;
        }
        escaped.push_back(text);
    }
    return escaped.join(u'|');
}

QJsonValue datatypeOf(const CsvwColumn& column)
{
    QJsonObject derived { { QStringLiteral("base"), column.datatype } };
    const QString format = column.choices.isEmpty() ? column.format : choicesFormat(column.choices);
    if (!format.isEmpty())
        derived.insert(QStringLiteral("format"), format);
    if (column.minimum)
        derived.insert(QStringLiteral("minimum"), *column.minimum);
    if (column.maximum)
        derived.insert(QStringLiteral("maximum"), *column.maximum);
    return derived.size() == 1 ? QJsonValue(column.datatype) : QJsonValue(derived);
}

QJsonObject describe(const CsvwColumn& column)
{
    QJsonObject out { { QStringLiteral("name"), column.name }, { QStringLiteral("datatype"), datatypeOf(column) } };
    if (column.titles.size() == 1)
        out.insert(QStringLiteral("titles"), column.titles.front());
    else if (!column.titles.isEmpty())
        out.insert(QStringLiteral("titles"), QJsonArray::fromStringList(column.titles));
    if (!column.list_separator.isEmpty())
        out.insert(QStringLiteral("separator"), column.list_separator);
    if (!column.description.isEmpty())
        out.insert(QStringLiteral("dc:description"), column.description);
    if (!column.unit.isEmpty())
        out.insert(QStringLiteral("schema:unitText"), column.unit);
    if (column.required)
        out.insert(QStringLiteral("required"), true);
    return out;
}

/// How the writer in delimited.h writes; stated in full, since two texts of the standard differ about the defaults.
QJsonObject dialect(QChar separator)
{
    return { { QStringLiteral("delimiter"), QString(separator) },
        { QStringLiteral("encoding"), QStringLiteral("utf-8") }, { QStringLiteral("header"), true },
        { QStringLiteral("headerRowCount"), 1 },
        { QStringLiteral("lineTerminators"), QJsonArray { QStringLiteral("\r\n") } },
        { QStringLiteral("quoteChar"), QStringLiteral("\"") }, { QStringLiteral("doubleQuote"), true },
        { QStringLiteral("skipRows"), 0 }, { QStringLiteral("skipColumns"), 0 },
        { QStringLiteral("skipBlankRows"), false }, { QStringLiteral("skipInitialSpace"), false },
        { QStringLiteral("trim"), false } };
}

QJsonObject describe(const CsvwTable& table)
{
    QJsonArray columns;
    for (const CsvwColumn& column : table.columns)
        columns.push_back(describe(column));
    QJsonObject schema { { QStringLiteral("columns"), columns } };
    if (table.primary_key.size() == 1)
        schema.insert(QStringLiteral("primaryKey"), table.primary_key.front());
    else if (!table.primary_key.isEmpty())
        schema.insert(QStringLiteral("primaryKey"), QJsonArray::fromStringList(table.primary_key));
    QJsonObject out { { QStringLiteral("url"), table.url }, { QStringLiteral("dialect"), dialect(table.separator) },
        { QStringLiteral("tableSchema"), schema } };
    if (!table.title.isEmpty())
        out.insert(QStringLiteral("dc:title"), table.title);
    if (!table.description.isEmpty())
        out.insert(QStringLiteral("dc:description"), table.description);
    return out;
}

QJsonArray context(const QString& language)
{
    return { QStringLiteral("http://www.w3.org/ns/csvw"), QJsonObject { { QStringLiteral("@language"), language } } };
}

QStringList columnFaults(const CsvwColumn& column)
{
    QStringList faults;
    if (!isCsvwColumnName(column.name))
        faults << Words::tr("“%1” cannot be the name of a column.").arg(column.name);
    if (!csvwDatatypes().contains(column.datatype))
        faults << Words::tr("Column “%1”: there is no datatype “%2”.").arg(column.name, column.datatype);
    else if (!formatFits(column))
        faults
            << Words::tr("Column “%1”: “%2” is not a format for %3.").arg(column.name, column.format, column.datatype);
    if (!column.choices.isEmpty() && (!column.format.isEmpty() || !textual().contains(column.datatype)))
        faults << Words::tr("Column “%1”: choices are for text columns without a format.").arg(column.name);
    if ((column.minimum || column.maximum) && !numeric().contains(column.datatype))
        faults << Words::tr("Column “%1”: limits are for numbers.").arg(column.name);
    if (column.minimum && column.maximum && *column.minimum > *column.maximum)
        faults << Words::tr("Column “%1”: the lower limit is above the upper one.").arg(column.name);
    return faults;
}

} // namespace

const QStringList& csvwDatatypes()
{
    static const QStringList names = numeric() + temporal() + textual() + QStringList { QStringLiteral("boolean") };
    return names;
}

bool isCsvwColumnName(const QString& name)
{
    static const QRegularExpression varname(
        QStringLiteral("^(?!_)(?:[A-Za-z0-9_]|%[0-9A-Fa-f]{2})(?:\\.?(?:[A-Za-z0-9_]|%[0-9A-Fa-f]{2}))*$"),
        QRegularExpression::DontCaptureOption);
    return varname.match(name).hasMatch() && !name.endsWith(u'\n');
}

QString csvwColumnName(const QString& heading)
{
    const QByteArray plain = heading.simplified().toUtf8();
    QString name;
    for (const char byte : plain) {
        const bool keep = (byte >= '0' && byte <= '9') || (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z')
            || byte == '_';
        name += keep ? QString(QLatin1Char(byte))
                     : u'%' + QString::number(static_cast<unsigned char>(byte), 16).rightJustified(2, u'0').toUpper();
    }
    return name.isEmpty() || name.startsWith(u'_') ? u'x' + name : name;
}

QString csvwMetadataFileName(const QString& table_file_name)
{
    return table_file_name + QStringLiteral("-metadata.json");
}

QStringList csvwFaults(const CsvwTable& table)
{
    QStringList faults;
    if (table.url.isEmpty() || !QUrl(table.url, QUrl::StrictMode).isValid())
        faults << Words::tr("“%1” is not the address of a table.").arg(table.url);
    if (table.columns.empty())
        faults << Words::tr("The table has no columns.");
    QSet<QString> names;
    for (const CsvwColumn& column : table.columns) {
        faults << columnFaults(column);
        if (names.contains(column.name))
            faults << Words::tr("There are two columns named “%1”.").arg(column.name);
        names.insert(column.name);
    }
    for (const QString& key : table.primary_key)
        if (!names.contains(key))
            faults << Words::tr("The primary key names a column “%1” that is not there.").arg(key);
    return faults;
}

Result<QJsonObject> csvwDocument(const CsvwTable& table)
{
    const QStringList faults = csvwFaults(table);
    if (!faults.isEmpty())
        return Error { Trouble::BadInput, faults.join(u' '), table.url };
    QJsonObject document = describe(table);
    document.insert(QStringLiteral("@context"), context(table.language));
    return document;
}

Result<QJsonObject> csvwDocument(const std::vector<CsvwTable>& tables, const QString& title)
{
    if (tables.empty())
        return Error { Trouble::BadInput, Words::tr("There is no table to describe."), {} };
    QJsonArray described;
    QSet<QString> urls;
    for (const CsvwTable& table : tables) {
        QStringList faults = csvwFaults(table);
        if (urls.contains(table.url))
            faults << Words::tr("There are two tables of this address.");
        urls.insert(table.url);
        if (!faults.isEmpty())
            return Error { Trouble::BadInput, faults.join(u' '), table.url };
        described.push_back(describe(table));
    }
    QJsonObject document { { QStringLiteral("@context"), context(tables.front().language) },
        { QStringLiteral("tables"), described } };
    if (!title.isEmpty())
        document.insert(QStringLiteral("dc:title"), title);
    return document;
}

QByteArray csvwBytes(const QJsonObject& document)
{
    return QJsonDocument(document).toJson(QJsonDocument::Indented);
}

} // namespace washfast::exchange
