// A made-up language for tests: every ASCII letter of every text of the program becomes a Cyrillic one, so that what is
// shown in ASCII letters was not translated. Numbers' places (%1, %n), marks of HTML, patterns of file filters and the
// & of a shortcut stay.
//
//     auto& language = MadeUpLanguage::spoken();   // before any text is asked for
//     EXPECT_EQ(QCoreApplication::translate("Window", "Bench"), madeUp("Bench"));
//     EXPECT_THAT(language.takeMissing(), testing::IsEmpty());
//
// The texts come from resources/i18n/extract.sh and are compiled by lrelease, as those of any language. Dates and the
// toolkit's own texts are Russian, which has the same letters and three plurals.
#pragma once

#include "app/translations.h"

#include <QCoreApplication>
#include <QFile>
#include <QFileInfo>
#include <QProcess>
#include <QRegularExpression>
#include <QSet>
#include <QTemporaryDir>
#include <QTranslator>
#include <QXmlStreamReader>
#include <QXmlStreamWriter>
#include <algorithm>
#include <gtest/gtest.h>
#include <stdexcept>
#include <vector>

namespace washfast::i18n {

/// One text of a .ts file.
struct Text {
    QString context, source;
    bool plural = false;
    QStringList forms; // translations: one, or one a plural form
    bool finished = true;

    friend bool operator==(const Text&, const Text&) = default;
};

inline std::vector<Text> readTexts(const QString& path)
{
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        throw std::runtime_error("not read: " + path.toStdString());
    QXmlStreamReader xml(&file);
    std::vector<Text> texts;
    QString context;
    while (!xml.atEnd()) {
        if (xml.readNext() != QXmlStreamReader::StartElement)
            continue;
        const auto name = xml.name();
        if (name == QLatin1String("name"))
            context = xml.readElementText();
        else if (name == QLatin1String("message"))
            texts.push_back(
                { context, {}, xml.attributes().value(QLatin1String("numerus")) == QLatin1String("yes"), {}, true });
        else if (name == QLatin1String("source"))
            texts.back().source = xml.readElementText();
        else if (name == QLatin1String("numerusform"))
            texts.back().forms << xml.readElementText();
        else if (name == QLatin1String("translation")) {
            texts.back().finished = !xml.attributes().hasAttribute(QLatin1String("type"));
            if (!texts.back().plural)
                texts.back().forms << xml.readElementText();
        }
    }
    if (xml.hasError())
        throw std::runtime_error(path.toStdString() + ": " + xml.errorString().toStdString());
    return texts;
}

inline void writeTexts(const QString& path, const QString& language, const std::vector<Text>& texts)
{
    QFile file(path);
    if (!file.open(QIODevice::WriteOnly))
        throw std::runtime_error("not written: " + path.toStdString());
    QXmlStreamWriter xml(&file);
    xml.writeStartDocument();
    xml.writeDTD(QStringLiteral("<!DOCTYPE TS>"));
    xml.writeStartElement(QStringLiteral("TS"));
    xml.writeAttribute(QStringLiteral("version"), QStringLiteral("2.1"));
    xml.writeAttribute(QStringLiteral("language"), language);
    for (size_t i = 0; i < texts.size(); ++i) {
        const auto& text = texts[i];
        if (i == 0 || texts[i - 1].context != text.context) {
            xml.writeStartElement(QStringLiteral("context"));
            xml.writeTextElement(QStringLiteral("name"), text.context);
        }
        xml.writeStartElement(QStringLiteral("message"));
        if (text.plural)
            xml.writeAttribute(QStringLiteral("numerus"), QStringLiteral("yes"));
        xml.writeTextElement(QStringLiteral("source"), text.source);
        xml.writeStartElement(QStringLiteral("translation"));
        if (text.plural)
            for (const auto& form : text.forms)
                xml.writeTextElement(QStringLiteral("numerusform"), form);
        else
            xml.writeCharacters(text.forms.value(0));
        xml.writeEndElement();
        xml.writeEndElement();
        if (i + 1 == texts.size() || texts[i + 1].context != text.context)
            xml.writeEndElement();
    }
    xml.writeEndDocument();
}

/// Runs a tool to its end; throws with what it said when it failed.
inline void runTool(const QString& tool, const QStringList& words)
{
    QProcess process;
    process.setProcessChannelMode(QProcess::MergedChannels);
    process.start(tool, words);
    if (!process.waitForFinished(60'000) || process.exitStatus() != QProcess::NormalExit || process.exitCode() != 0)
        throw std::runtime_error(tool.toStdString() + ": " + process.readAll().toStdString());
}

/// The texts of the program as they are now, brought into this file.
inline void extractTo(const QString& path)
{
    runTool(QStringLiteral("bash"),
        { QStringLiteral(WASHFAST_SOURCE_DIR "/resources/i18n/extract.sh"), path, QStringLiteral(WASHFAST_TEXTS) });
}

inline void compile(const QString& ts, const QString& qm)
{
    runTool(QStringLiteral("/usr/lib/qt6/bin/lrelease"), { QStringLiteral("-silent"), ts, QStringLiteral("-qm"), qm });
}

/// The text in the made-up language.
inline QString madeUp(const QString& english)
{
    static const QRegularExpression kept(
        QStringLiteral("%L?[0-9n]{1,2}|</?[a-z][^<>]*>|&(?:[a-z]+|#[0-9]+);|\\*\\.[A-Za-z0-9]+"));
    QString said;
    qsizetype from = 0;
    const auto turn = [&](QStringView part) {
        for (const QChar c : part) {
            if (c >= QLatin1Char('a') && c <= QLatin1Char('z'))
                said += QChar(char16_t(0x430 + c.unicode() - 'a'));
            else if (c >= QLatin1Char('A') && c <= QLatin1Char('Z'))
                said += QChar(char16_t(0x410 + c.unicode() - 'A'));
            else
                said += c;
        }
    };
    for (auto matches = kept.globalMatch(english); matches.hasNext();) {
        const auto match = matches.next();
        turn(QStringView(english).mid(from, match.capturedStart() - from));
        said += match.captured();
        from = match.capturedEnd();
    }
    turn(QStringView(english).mid(from));
    return said;
}
inline QString madeUp(const char* english)
{
    return madeUp(QString::fromUtf8(english));
}

class MadeUpLanguage {
public:
    /// Extracted, compiled and installed once a program.
    static MadeUpLanguage& spoken()
    {
        static MadeUpLanguage language;
        return language;
    }

    /// Texts of the program that were asked for since the last time and are in no translation: "Context: text", a line
    /// each.
    [[nodiscard]] std::string takeMissing() { return last_.take().join(QLatin1Char('\n')).toStdString(); }
    [[nodiscard]] const std::vector<Text>& texts() const { return texts_; }

private:
    /// Asked after the others, so only for what they do not have.
    class LastAsked final : public QTranslator {
    public:
        [[nodiscard]] bool isEmpty() const override { return false; }
        [[nodiscard]] QString translate(const char* context, const char* source, const char*, int) const override
        {
            // The toolkit's classes: some of its texts are in no translation of its own.
            const bool toolkit = context[0] == 'Q' && context[1] >= 'A' && context[1] <= 'Z';
            if (!toolkit && source && *source)
                asked_ << QString::fromUtf8(context) + QStringLiteral(": ") + QString::fromUtf8(source);
            return {};
        }
        [[nodiscard]] QStringList take()
        {
            QStringList all(asked_.begin(), asked_.end());
            all.sort();
            asked_.clear();
            return all;
        }

    private:
        mutable QSet<QString> asked_;
    };

    MadeUpLanguage()
    {
        const auto ts = folder_.filePath(QStringLiteral("washfast_ru.ts"));
        extractTo(ts);
        texts_ = readTexts(ts);
        for (auto& text : texts_)
            text.forms = QStringList(text.plural ? 3 : 1,
                text.source == QLatin1String("en") ? QStringLiteral("ru") // the code of the language
                                                   : madeUp(text.source));
        writeTexts(ts, QStringLiteral("ru_RU"), texts_);
        compile(ts, folder_.filePath(QStringLiteral("washfast_ru.qm")));
        QLocale::setDefault(QLocale(QLocale::Russian, QLocale::Russia));
        QCoreApplication::installTranslator(&last_);
        installTranslations(*QCoreApplication::instance(), QLocale(), folder_.path());
    }

    QTemporaryDir folder_;
    std::vector<Text> texts_;
    LastAsked last_;
};

} // namespace washfast::i18n
