// English has its plurals, and a language brings the toolkit's own texts with it.
#include "tests/i18n/made_up_language.h"

#include <QDialogButtonBox>
#include <QPushButton>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::i18n;

namespace {

QString english()
{
    return QStringLiteral(WASHFAST_SOURCE_DIR "/resources/i18n/washfast_en.ts");
}

/// The word behind the number: "exposures" of "%n exposures and ...".
QString counted(const QString& text)
{
    static const QRegularExpression word(QStringLiteral("%n (?:[a-z]+ )*?([a-z]+)"));
    return word.match(text).captured(1);
}

QSet<QString> places(const QString& text)
{
    static const QRegularExpression place(QStringLiteral("%L?[0-9]{1,2}"));
    QSet<QString> all;
    for (auto found = place.globalMatch(text); found.hasNext();)
        all << found.next().captured();
    return all;
}

} // namespace

TEST(English, HasBothFormsOfEveryTextWithANumber)
{
    QTemporaryDir folder;
    const auto fresh = folder.filePath(QStringLiteral("washfast_en.ts"));
    ASSERT_TRUE(QFile::copy(english(), fresh));
    extractTo(fresh); // as the program is now
    std::string wrong;
    const auto texts = readTexts(fresh);
    EXPECT_GT(texts.size(), 80U);
    for (const auto& text : texts)
        if (!text.finished || text.forms.size() != 2 || text.forms.contains(QString()))
            wrong += (text.context + QStringLiteral(": ") + text.source + QLatin1Char('\n')).toStdString();
    EXPECT_TRUE(wrong.empty()) << "bash resources/i18n/extract.sh resources/i18n/washfast_en.ts brings these in; fill "
                                  "both forms:\n"
                               << wrong;
    const auto kept = readTexts(english());
    EXPECT_TRUE(kept == texts) << "texts that are gone stand in washfast_en.ts; extract.sh takes them out";
}

TEST(English, OneOfThemIsSaidAsOne)
{
    std::string wrong;
    int different = 0;
    for (const auto& text : readTexts(english())) {
        ASSERT_EQ(text.forms.size(), 2) << text.source.toStdString();
        const auto& one = text.forms[0];
        const auto& many = text.forms[1];
        different += one != many ? 1 : 0;
        // Values go to the places by their order, so a form that lacks one would show them in the wrong places.
        for (const auto& form : text.forms)
            if (places(form) != places(text.source))
                wrong += (text.context + QStringLiteral(": other places: ") + form + QLatin1Char('\n')).toStdString();
        // "%n exposures" of one, and the "(s)" of the sources.
        const bool plural_noun = counted(many).endsWith(QLatin1Char('s')) && counted(one) == counted(many);
        if (plural_noun || (one + many).contains(QLatin1String("(s)")) || (one + many).contains(QLatin1String("(es)")))
            wrong += (text.context + QStringLiteral(": ") + one + QStringLiteral(" | ") + many + QLatin1Char('\n'))
                         .toStdString();
    }
    EXPECT_GT(different, 70);
    EXPECT_TRUE(wrong.empty()) << wrong;
}

TEST(English, IsWhatTheProgramSays)
{
    QTranslator translator;
    ASSERT_TRUE(translator.load(QStringLiteral(":/i18n/washfast_en.qm")));
    EXPECT_EQ(translator.translate("Bench", "%n exposures", nullptr, 1), QStringLiteral("%n exposure"));
    EXPECT_EQ(translator.translate("Bench", "%n exposures", nullptr, 2), QStringLiteral("%n exposures"));
    EXPECT_EQ(translator.translate("Causes", "%n prints", nullptr, 1), QStringLiteral("%n print"));
}

// Debian's package qt6-translations-l10n, which app/packages.sh installs.
TEST(Toolkit, SpeaksTheLanguageOfTheProgram)
{
    QTemporaryDir folder;
    const auto ts = folder.filePath(QStringLiteral("washfast_de.ts"));
    writeTexts(ts, QStringLiteral("de_DE"),
        { { QStringLiteral("Window"), QStringLiteral("Bench"), false, { QStringLiteral("Werkbank") }, true } });
    compile(ts, folder.filePath(QStringLiteral("washfast_de.qm")));
    const auto cancel
        = [] { return QDialogButtonBox(QDialogButtonBox::Cancel).button(QDialogButtonBox::Cancel)->text(); };
    {
        QObject owner; // takes the translators with it
        installTranslations(owner, QLocale(QLocale::German, QLocale::Austria), folder.path());
        EXPECT_EQ(QCoreApplication::translate("Window", "Bench"), QStringLiteral("Werkbank"));
        EXPECT_EQ(cancel(), QStringLiteral("Abbrechen"));
    }
    {
        QObject owner; // a language that Washfast does not speak: English, buttons too
        installTranslations(owner, QLocale(QLocale::French), folder.path());
        for (const auto* one : owner.findChildren<QTranslator*>())
            EXPECT_TRUE(QStringLiteral("en").startsWith(one->language().left(2))) << one->language().toStdString();
        EXPECT_FALSE(owner.findChildren<QTranslator*>().isEmpty());
    }
}

// Whoever adds a language adds one file.
TEST(Languages, EveryOneInTheFolderIsInTheProgram)
{
    const auto files = QDir(QStringLiteral(WASHFAST_SOURCE_DIR "/resources/i18n"))
                           .entryList({ QStringLiteral("washfast_*.ts") }, QDir::Files);
    EXPECT_FALSE(files.isEmpty());
    for (const auto& file : files)
        EXPECT_TRUE(
            QFile::exists(QStringLiteral(":/i18n/") + QFileInfo(file).completeBaseName() + QStringLiteral(".qm")))
            << file.toStdString();
}

} // namespace WASHFAST_FILE
