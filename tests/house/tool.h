// Runs a checking tool over the sources: did it find nothing, and if it did, what. For the tests of this folder.
#pragma once

#include <QDirIterator>
#include <QFile>
#include <QProcess>
#include <QStandardPaths>
#include <QStringList>
#include <QTemporaryDir>
#include <gtest/gtest.h>

namespace washfast::house {

struct Outcome {
    bool clean;
    std::string complaints;
};

// A test that needs one tool. It fails where that is not installed: skipped, it would hide a missing install step of
// tests/run.sh.
class ToolTest : public testing::Test {
protected:
    explicit ToolTest(QString tool)
        : m_tool(std::move(tool))
    {
    }

    void SetUp() override
    {
        if (QStandardPaths::findExecutable(m_tool).isEmpty())
            FAIL() << m_tool.toStdString() << " is not installed; tests/run.sh installs it";
        ASSERT_TRUE(m_folder.isValid());
    }

    [[nodiscard]] static QString root() { return QStringLiteral(WASHFAST_SOURCE_DIR); }

    // Every file of the house whose name matches one of the wildcards.
    [[nodiscard]] static QStringList sources(const QStringList& wildcards)
    {
        QStringList files;
        for (const char* house : { "app", "core", "ui", "tests" }) {
            QDirIterator found(
                root() + QLatin1Char('/') + QLatin1String(house), wildcards, QDir::Files, QDirIterator::Subdirectories);
            while (found.hasNext())
                files << found.next();
        }
        files.sort();
        return files;
    }

    // A source file with that text, outside the project: a mistake that the tool has to find.
    [[nodiscard]] QString planted(const QByteArray& text) const
    {
        QFile file(m_folder.filePath(QStringLiteral("planted.cpp")));
        EXPECT_TRUE(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
        file.write(text);
        return file.fileName();
    }

    [[nodiscard]] Outcome run(const QStringList& arguments) const
    {
        QProcess process;
        process.setProcessChannelMode(QProcess::MergedChannels);
        process.setWorkingDirectory(root());
        process.start(m_tool, arguments);
        if (!process.waitForFinished(240000))
            return { false, process.errorString().toStdString() };
        const bool clean = process.exitStatus() == QProcess::NormalExit && process.exitCode() == 0;
        return { clean, process.readAll().toStdString() };
    }

private:
    QString m_tool;
    QTemporaryDir m_folder;
};

} // namespace washfast::house
