// app/start.sh in a world of stand-ins: what it installs, builds and opens, without a package manager, a compiler or
// a display. The stand-ins are small programs in a folder that is the whole PATH, and each writes down how it was
// called.
#include <QDir>
#include <QFile>
#include <QProcess>
#include <QProcessEnvironment>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

namespace {

using testing::HasSubstr;
using testing::Not;

struct Outcome {
    int status;
    std::string says; // standard output and error
    std::string calls; // one line a call, in order
};

class StartScript : public testing::Test {
protected:
    void SetUp() override
    {
        ASSERT_TRUE(m_folder.isValid());
        for (const char* part : { "bin", "data", "project/app" })
            ASSERT_TRUE(QDir().mkpath(at(part)));
        for (const char* script : { "app/start.sh", "app/packages.sh" }) {
            const QString source = QStringLiteral(WASHFAST_SOURCE_DIR "/") + QLatin1String(script);
            ASSERT_TRUE(QFile::copy(source, at("project/") + QLatin1String(script)));
        }
        for (const char* tool : { "bash", "sh", "dirname", "env", "mkdir", "mktemp", "mv", "rm", "sed", "chmod" }) {
            const QString real = QStandardPaths::findExecutable(QLatin1String(tool));
            ASSERT_FALSE(real.isEmpty()) << tool;
            ASSERT_TRUE(QFile::link(real, at("bin/") + QLatin1String(tool)));
        }
        standIn("nproc", "echo 1");
        standIn("id", "echo 1000");
        // Everything is installed but what the file "missing" lists, one a line.
        standIn("dpkg-query",
            "while read -r name; do [ \"$name\" = \"$4\" ] && exit 1; done <\"$WORLD/missing\"\necho installed");
        standIn("apt-get",
            "echo \"apt-get $*\" >>\"$WORLD/calls\"\ncase \"$*\" in *install*) : >\"$WORLD/missing\";; esac");
        standIn("cmake",
            "echo \"cmake $*\" >>\"$WORLD/calls\"\n"
            "[ \"$1\" = --build ] || exit 0\n"
            "mkdir -p \"$2\"\n: >\"$2/build.ninja\"\n"
            "echo 'echo \"washfast $*\" >>\"$WORLD/calls\"; [ \"$1\" != demo ] || : >\"$2\"' >\"$2/washfast\"\n"
            "chmod +x \"$2/washfast\"");
        missing({});
        m_environment.insert(QStringLiteral("PATH"), at("bin"));
        m_environment.insert(QStringLiteral("WORLD"), m_folder.path());
        m_environment.insert(QStringLiteral("XDG_DATA_HOME"), at("data"));
        m_environment.insert(QStringLiteral("DISPLAY"), QStringLiteral(":7"));
    }

    [[nodiscard]] QString at(const char* part) const { return m_folder.filePath(QLatin1String(part)); }

    void write(const QString& path, const QByteArray& text)
    {
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::WriteOnly | QIODevice::Truncate)) << path.toStdString();
        file.write(text);
    }

    void standIn(const char* name, const char* body)
    {
        const QString path = at("bin/") + QLatin1String(name);
        write(path, QByteArray("#!/bin/sh\n") + body + "\n");
        QFile::setPermissions(path, QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner);
    }

    void missing(const QByteArrayList& packages)
    {
        write(at("missing"), packages.join('\n') + (packages.isEmpty() ? "" : "\n"));
    }

    Outcome start(const QStringList& arguments = {})
    {
        QFile::remove(at("calls"));
        QProcess process;
        process.setProcessEnvironment(m_environment);
        process.setProcessChannelMode(QProcess::MergedChannels);
        process.setStandardInputFile(QProcess::nullDevice());
        process.start(at("bin/bash"), QStringList { at("project/app/start.sh") } + arguments);
        if (!process.waitForFinished(60000))
            return { -1, process.errorString().toStdString(), {} };
        QFile calls(at("calls"));
        const QByteArray made = calls.open(QIODevice::ReadOnly) ? calls.readAll() : QByteArray();
        return { process.exitCode(), process.readAll().toStdString(), made.toStdString() };
    }

    QTemporaryDir m_folder;
    QProcessEnvironment m_environment;
};

} // namespace

TEST_F(StartScript, BuildsAndOpensTheNotebookThatIsNamed)
{
    const Outcome outcome = start({ QStringLiteral("spring term.washfast") });
    EXPECT_EQ(outcome.status, 0) << outcome.says;
    const std::string build = at("project/build/app").toStdString();
    EXPECT_THAT(outcome.calls, HasSubstr("-B " + build + " -G Ninja"));
    EXPECT_THAT(outcome.calls, HasSubstr("-DWASHFAST_TESTS=OFF"));
    EXPECT_THAT(outcome.calls, HasSubstr("cmake --build " + build));
    EXPECT_THAT(outcome.calls, testing::EndsWith("washfast spring term.washfast\n"));
    EXPECT_THAT(outcome.calls, Not(HasSubstr("apt-get"))) << "nothing was missing";
    EXPECT_THAT(outcome.calls, Not(HasSubstr("demo")));
}

TEST_F(StartScript, ConfiguresOnlyOnce)
{
    start();
    EXPECT_THAT(start().calls, Not(HasSubstr("-G Ninja")));
}

TEST_F(StartScript, WritesTheExampleOnceAndOpensIt)
{
    const std::string example = at("data/washfast/demo.washfast").toStdString();
    const Outcome first = start();
    EXPECT_EQ(first.status, 0) << first.says;
    EXPECT_THAT(first.calls, HasSubstr("washfast demo "));
    EXPECT_THAT(first.calls, testing::EndsWith("washfast " + example + "\n"));
    EXPECT_THAT(QDir(at("data/washfast")).entryList(QDir::AllEntries | QDir::NoDotAndDotDot),
        testing::ElementsAre(QStringLiteral("demo.washfast")));
    const Outcome second = start();
    EXPECT_THAT(second.calls, Not(HasSubstr("washfast demo ")));
    EXPECT_THAT(second.calls, testing::EndsWith("washfast " + example + "\n"));
}

TEST_F(StartScript, InstallsOnlyWhatIsMissing)
{
    standIn("id", "echo 0");
    missing({ "qt6-svg-dev", "ninja-build" });
    const Outcome outcome = start();
    EXPECT_EQ(outcome.status, 0) << outcome.says;
    EXPECT_THAT(outcome.calls, HasSubstr("apt-get -q update\n"));
    EXPECT_THAT(outcome.calls, HasSubstr("apt-get -q install -y --no-install-recommends ninja-build qt6-svg-dev\n"));
}

TEST_F(StartScript, SaysWhatIsMissingWhenItMayNotInstall)
{
    missing({ "qt6-svg-dev", "ninja-build" });
    const Outcome outcome = start();
    EXPECT_EQ(outcome.status, 1);
    EXPECT_THAT(outcome.says, HasSubstr("Missing packages: ninja-build qt6-svg-dev\n"));
    EXPECT_THAT(outcome.says, HasSubstr("apt-get install --no-install-recommends ninja-build qt6-svg-dev\n"));
    EXPECT_EQ(outcome.calls, "") << "nothing is built with half of the packages";
}

TEST_F(StartScript, SaysWhatIsMissingWhenInstallingFails)
{
    standIn("sudo", "echo \"sudo $*\" >>\"$WORLD/calls\"; exit 1");
    missing({ "qt6-svg-dev" });
    const Outcome outcome = start();
    EXPECT_EQ(outcome.status, 1);
    EXPECT_THAT(outcome.calls, HasSubstr("sudo -n ")) << "nobody is there to type a password";
    EXPECT_THAT(outcome.says, HasSubstr("Missing packages: qt6-svg-dev\n"));
}

TEST_F(StartScript, SaysThatThereIsNoDisplay)
{
    m_environment.remove(QStringLiteral("DISPLAY"));
    const Outcome outcome = start({ QStringLiteral("term.washfast") });
    EXPECT_EQ(outcome.status, 1);
    EXPECT_THAT(outcome.says, HasSubstr("no display"));
    EXPECT_THAT(outcome.calls, HasSubstr("cmake --build")) << "it is built all the same";
    EXPECT_THAT(outcome.calls, Not(HasSubstr("washfast term.washfast\n")));
}

TEST_F(StartScript, OpensWithoutADisplayOnThePlatformThatIsAskedFor)
{
    m_environment.remove(QStringLiteral("DISPLAY"));
    m_environment.insert(QStringLiteral("QT_QPA_PLATFORM"), QStringLiteral("offscreen"));
    const Outcome outcome = start({ QStringLiteral("term.washfast") });
    EXPECT_EQ(outcome.status, 0) << outcome.says;
    EXPECT_THAT(outcome.calls, HasSubstr("washfast term.washfast\n"));
}

TEST_F(StartScript, StartsAfreshWhenTheProjectWasMoved)
{
    start();
    write(at("project/build/app/CMakeCache.txt"), "CMAKE_HOME_DIRECTORY:INTERNAL=/somewhere/else\n");
    const Outcome outcome = start();
    EXPECT_EQ(outcome.status, 0) << outcome.says;
    EXPECT_THAT(outcome.says, HasSubstr("/somewhere/else"));
    EXPECT_THAT(outcome.calls, HasSubstr("-G Ninja"));
}

TEST_F(StartScript, RefusesTwoNotebooks)
{
    const Outcome outcome = start({ QStringLiteral("a.washfast"), QStringLiteral("b.washfast") });
    EXPECT_EQ(outcome.status, 2);
    EXPECT_THAT(outcome.says, HasSubstr("Usage"));
    EXPECT_EQ(outcome.calls, "");
}

} // namespace WASHFAST_FILE
