// The texts that a translator gets: all of them, each under a name that the program asks for.
#include "tests/i18n/made_up_language.h"

#include <QDirIterator>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast::i18n;

namespace {

struct Source {
    QString path, text;
};

std::vector<Source> sources()
{
    std::vector<Source> all;
    for (const char* house : { "core", "ui", "app" }) {
        QDirIterator files(QStringLiteral(WASHFAST_SOURCE_DIR "/") + QLatin1String(house),
            { QStringLiteral("*.cpp"), QStringLiteral("*.h") }, QDir::Files, QDirIterator::Subdirectories);
        while (files.hasNext()) {
            QFile file(files.next());
            if (!file.open(QIODevice::ReadOnly))
                throw std::runtime_error("not read: " + file.fileName().toStdString());
            all.push_back(
                { file.fileName().mid(qsizetype(sizeof WASHFAST_SOURCE_DIR)), QString::fromUtf8(file.readAll()) });
        }
    }
    return all;
}

/// A literal, or several that stand side by side, with the word and the bracket before it: "tr(", "QStringLiteral(".
struct Literal {
    QString before, text;
    int line = 0;
};

/// The literals of C++; comments are passed over.
std::vector<Literal> literalsOf(const QString& source)
{
    static const QRegularExpression token(
        QStringLiteral("//[^\\n]*|/\\*.*?\\*/"
                       "|R\"\\((?:.|\\n)*?\\)\"|\"(?:\\\\.|[^\"\\\\\\n])*\"|'(?:\\\\.|[^'\\\\\\n])+'|[A-Za-z_]"
                       "[A-Za-z0-9_]*|[0-9][0-9a-zA-Z'.]*|\\S"),
        QRegularExpression::DotMatchesEverythingOption);
    std::vector<Literal> found;
    QString last, before_last;
    int line = 1;
    qsizetype counted = 0;
    bool joined = false;
    for (auto matches = token.globalMatch(source); matches.hasNext();) {
        const auto match = matches.next();
        const auto text = match.captured();
        if (text.startsWith(QLatin1String("//")) || text.startsWith(QLatin1String("/*")))
            continue;
        line += int(source.mid(counted, match.capturedStart() - counted).count(QLatin1Char('\n')));
        counted = match.capturedStart();
        if (text.startsWith(QLatin1Char('"'))) {
            auto inner = text.mid(1, text.size() - 2);
            inner.replace(QLatin1String("\\n"), QLatin1String("\n"))
                .replace(QLatin1String("\\\""), QLatin1String("\""));
            inner.replace(QLatin1String("\\u00a0"), QString(QChar(0xa0)));
            inner.replace(QLatin1String("\\\\"), QLatin1String("\\"));
            if (joined)
                found.back().text += inner;
            else
                found.push_back({ last == QLatin1String("(") ? before_last : last, inner, line });
            joined = true;
            continue;
        }
        joined = false;
        before_last = last;
        last = text;
    }
    return found;
}

/// The classes with a Q_OBJECT, with their namespaces.
QSet<QString> objectsIn(const QString& source)
{
    static const QRegularExpression step(
        QStringLiteral("//[^\\n]*|namespace ([\\w:]+) *\\{|(?:class|struct) (\\w+)[^;{}()]*\\{|Q_OBJECT|[{}]"));
    QSet<QString> objects;
    QStringList open; // what each brace belongs to
    for (auto steps = step.globalMatch(source); steps.hasNext();) {
        const auto match = steps.next();
        const auto text = match.captured();
        if (text == QLatin1String("}")) {
            if (!open.isEmpty())
                open.removeLast();
        } else if (text == QLatin1String("Q_OBJECT")) {
            auto names = open;
            names.removeAll(QString());
            objects << names.join(QStringLiteral("::"));
        } else if (!text.startsWith(QLatin1String("//"))) {
            open << (match.captured(1).isEmpty() ? match.captured(2) : match.captured(1));
        }
    }
    return objects;
}

QSet<QString> sourcesOf(const std::vector<Text>& texts)
{
    QSet<QString> all;
    for (const auto& text : texts)
        all << text.source;
    return all;
}

} // namespace

TEST(Extraction, EveryTextStandsUnderANameThatTheProgramAsksFor)
{
    static const QRegularExpression declared(QStringLiteral("Q_DECLARE_TR_FUNCTIONS\\(([^)]*)\\)"));
    QSet<QString> asked { QStringLiteral("Hazards"), QStringLiteral("Formulas") };
    for (const auto& source : sources()) {
        for (auto found = declared.globalMatch(source.text); found.hasNext();)
            asked << found.next().captured(1);
        asked += objectsIn(source.text);
    }
    QSet<QString> contexts;
    for (const auto& text : MadeUpLanguage::spoken().texts())
        contexts << text.context;
    EXPECT_GT(contexts.size(), 40);
    const auto nobody = contexts - asked;
    EXPECT_TRUE(nobody.isEmpty()) << QStringList(nobody.begin(), nobody.end()).join(QLatin1Char(' ')).toStdString();
}

TEST(Extraction, TheCatalogueAndTheTablesOfResourcesAreIn)
{
    const auto all = sourcesOf(MadeUpLanguage::spoken().texts());
    for (const char* text : { "Mix on the sheet", "Volume that was really put on.", "foam brush", "%1, bare sheet",
             "No strong acid and no heat on hexacyanoferrate.", "Causes serious eye damage",
             "Traditional, two solutions", "Side by side", "north-east", "citric acid monohydrate" })
        EXPECT_TRUE(all.contains(QString::fromUtf8(text))) << text;
}

// What nobody marked is found by its looks: a literal of several words that is in no other dress.
TEST(Extraction, NoSentenceInTheSourcesIsForgotten)
{
    static const QSet<QString> dressed { QStringLiteral("QStringLiteral"), QStringLiteral("QLatin1String"),
        QStringLiteral("QByteArrayLiteral"), QStringLiteral("words"), QStringLiteral("include"), QStringLiteral("u"),
        QStringLiteral("logic_error"), QStringLiteral("runtime_error"), QStringLiteral("Q_DECLARE_TR_FUNCTIONS"),
        QStringLiteral("static_assert") };
    static const QRegularExpression words(QStringLiteral("[A-Za-z]{2,},? [a-z]{2,}"));
    // Names by which chemicals are typed; examples of the filter line; the first bytes of a database.
    static const std::pair<const char*, QRegularExpression> known[] = {
        { "core/chemistry/substance.cpp", QRegularExpression(QStringLiteral("^[a-z()I]+ [a-zI() ]+$")) },
        { "core/trial/filter_help.cpp", QRegularExpression(QStringLiteral("^(\"|print_|kept )")) },
        { "core/causes/published_signs.cpp", QRegularExpression(QStringLiteral("^[a-z_]+ [a-z_]+$")) }, // keys
        { "app/cli/factor_source.cpp", QRegularExpression(QStringLiteral("^SQLite format 3$")) },
        { "core/quantity/catalogue.cpp", QRegularExpression(QStringLiteral("^no such column$")) },
    };
    const auto isKnown = [](const QString& path, const QString& text) {
        return std::any_of(std::begin(known), std::end(known),
            [&](const auto& one) { return path == QLatin1String(one.first) && one.second.match(text).hasMatch(); });
    };
    const auto all = sourcesOf(MadeUpLanguage::spoken().texts());
    QStringList forgotten;
    int looked = 0;
    for (const auto& source : sources()) {
        if (source.path.startsWith(QLatin1String("core/store/")) || source.path.startsWith(QLatin1String("app/texts/")))
            continue; // statements of the database
        for (const auto& literal : literalsOf(source.text)) {
            if (dressed.contains(literal.before) || !words.match(literal.text).hasMatch())
                continue;
            ++looked;
            if (!all.contains(literal.text) && !isKnown(source.path, literal.text))
                forgotten << QStringLiteral("%1:%2: %3").arg(source.path).arg(literal.line).arg(literal.text);
        }
    }
    EXPECT_GT(looked, 2000);
    EXPECT_TRUE(forgotten.isEmpty()) << forgotten.join(QLatin1Char('\n')).toStdString();
}

// lupdate sees a literal alone: not one behind a question mark, and not a variable.
TEST(Extraction, TranslationIsAskedForALiteral)
{
    static const QRegularExpression chosen(
        QStringLiteral("\\btr\\(\\s*[^\"\\s)][^()\"]*\\?\\s*\""), QRegularExpression::DotMatchesEverythingOption);
    QStringList wrong;
    for (const auto& source : sources())
        for (auto found = chosen.globalMatch(source.text); found.hasNext();)
            wrong << source.path + QStringLiteral(": ") + found.next().captured().simplified();
    EXPECT_TRUE(wrong.isEmpty()) << wrong.join(QLatin1Char('\n')).toStdString();
}

} // namespace WASHFAST_FILE
