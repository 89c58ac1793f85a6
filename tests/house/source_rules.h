// The rules of the house as a scanner: which file may include what, what may lie at the top, how long a file may be.
// It works on a path and a text, so that a test can hand it a planted mistake and expect the finding.
//
//     SourceRules rules(qtModuleHeaders());
//     auto findings = rules.check(u"core/stats/fisher.h"_qs, u"#include <QWidget>"_qs);   // one finding, line 1
#pragma once

#include <QDir>
#include <QHash>
#include <QLibraryInfo>
#include <QRegularExpression>
#include <QSet>
#include <QString>
#include <QStringList>
#include <ostream>
#include <vector>

namespace washfast::house {

struct Finding {
    QString path;
    int line = 0; // from 1; 0 is the file as a whole
    QString says;
};

inline std::ostream& operator<<(std::ostream& out, const Finding& finding)
{
    return out << '\n' << finding.path.toStdString() << ':' << finding.line << ": " << finding.says.toStdString();
}

// Qt module by header ("QChart" -> "QtCharts"), read from the headers that are installed, so that no list of ours can
// fall behind. Both spellings are in it: QWidget and qwidget.h.
inline QHash<QString, QString> qtModuleHeaders()
{
    QHash<QString, QString> moduleOf;
    const QDir root(QLibraryInfo::path(QLibraryInfo::HeadersPath));
    const QStringList modules = root.entryList({ QStringLiteral("Qt*") }, QDir::Dirs, QDir::Name);
    for (const QString& module : modules) {
        const QStringList headers = QDir(root.filePath(module)).entryList(QDir::Files);
        for (const QString& header : headers)
            moduleOf.insert(header, module);
    }
    return moduleOf;
}

// The rooms of core/ and what each may include besides itself. Dependencies point one way: nothing in this table may
// lead back to the room that it stands at.
inline const QHash<QString, QStringList>& coreRooms()
{
    static const QStringList records { QStringLiteral("trial"), QStringLiteral("quantity") };
    static const QStringList sciences = QStringList { QStringLiteral("stats") } + records;
    static const QStringList everything = QStringList { QStringLiteral("files"), QStringLiteral("store"),
        QStringLiteral("chemistry"), QStringLiteral("light"), QStringLiteral("drying"), QStringLiteral("density") }
        + sciences;
    static const QHash<QString, QStringList> table {
        { QStringLiteral("quantity"), {} },
        { QStringLiteral("files"), { QStringLiteral("quantity") } },
        { QStringLiteral("trial"), { QStringLiteral("quantity") } },
        { QStringLiteral("stats"), records },
        { QStringLiteral("chemistry"), sciences },
        { QStringLiteral("light"), sciences + QStringList { QStringLiteral("files") } },
        { QStringLiteral("drying"), sciences },
        { QStringLiteral("density"), sciences + QStringList { QStringLiteral("files") } },
        { QStringLiteral("store"), sciences },
        { QStringLiteral("causes"), everything },
        { QStringLiteral("exchange"), everything },
        { QStringLiteral("report"), everything + QStringList { QStringLiteral("causes"), QStringLiteral("exchange") } },
    };
    return table;
}

class SourceRules {
public:
    static constexpr int mostLines = 800;

    explicit SourceRules(QHash<QString, QString> moduleOf)
        : m_moduleOf(std::move(moduleOf))
    {
    }

    // Every rule that `text`, standing at `path` (from the project's root, with slashes), breaks.
    [[nodiscard]] std::vector<Finding> check(const QString& path, const QString& text) const
    {
        static const QRegularExpression include(QStringLiteral("^\\s*#\\s*include\\s*[<\"]([^>\"]+)[>\"]"));
        std::vector<Finding> findings;
        const QStringList lines = text.split(QLatin1Char('\n'));
        for (qsizetype i = 0; i < lines.size(); ++i) {
            const int number = static_cast<int>(i) + 1;
            if (const auto match = include.match(lines[i]); match.hasMatch()) {
                if (const QString says = includeRule(path, match.captured(1)); !says.isEmpty())
                    findings.push_back({ path, number, says });
            }
            for (const QString& says : { wordRule(lines[i]), roomRule(path, lines[i]) })
                if (!says.isEmpty())
                    findings.push_back({ path, number, says });
        }
        const auto length = lines.size() - (lines.last().isEmpty() ? 1 : 0);
        if (length > mostLines)
            findings.push_back({ path, 0, QStringLiteral("is %1 lines long, at most %2").arg(length).arg(mostLines) });
        return findings;
    }

    // What lies at the top of the project and has no place there. `ignored`: the lines of .gitignore.
    [[nodiscard]] static std::vector<Finding> checkTopLevel(const QStringList& names, const QStringList& ignored)
    {
        static const QSet<QString> allowed { QStringLiteral("CMakeLists.txt"), QStringLiteral("README.md"),
            QStringLiteral("DEVELOPERS.md"), QStringLiteral("LICENSE"), QStringLiteral("app"), QStringLiteral("core"),
            QStringLiteral("ui"), QStringLiteral("tests"), QStringLiteral("resources") };
        std::vector<Finding> findings;
        for (const QString& name : names) {
            if (!allowed.contains(name) && !name.startsWith(QLatin1Char('.')) && !isIgnored(name, ignored))
                findings.push_back({ name, 0, QStringLiteral("has no place at the top of the project") });
        }
        return findings;
    }

private:
    [[nodiscard]] static bool isIgnored(const QString& name, const QStringList& ignored)
    {
        for (QString pattern : ignored) {
            pattern = pattern.trimmed();
            if (pattern.isEmpty() || pattern.startsWith(QLatin1Char('#')))
                continue;
            if (pattern.startsWith(QLatin1Char('/')))
                pattern.remove(0, 1);
            if (pattern.endsWith(QLatin1Char('/')))
                pattern.chop(1);
            if (QRegularExpression::fromWildcard(pattern).match(name).hasMatch())
                return true;
        }
        return false;
    }

    // The Qt module that a header belongs to: <QtWidgets/QLabel>, <QtWidgets> and <QLabel> are all QtWidgets.
    [[nodiscard]] QString qtModule(const QString& header) const
    {
        const QString first = header.section(QLatin1Char('/'), 0, 0);
        if (header.contains(QLatin1Char('/')))
            return first.startsWith(QStringLiteral("Qt")) ? first : QString();
        return m_moduleOf.value(header);
    }

    // Why `path` must not include `header`; empty if it may.
    [[nodiscard]] QString includeRule(const QString& path, const QString& header) const
    {
        static const QSet<QString> plainModules { QStringLiteral("QtCore"), QStringLiteral("QtConcurrent") };
        const QString house = path.section(QLatin1Char('/'), 0, 0);
        const QString room = path.section(QLatin1Char('/'), 1, 1);
        const QString intoHouse = header.section(QLatin1Char('/'), 0, 0);
        const QString intoRoom = header.section(QLatin1Char('/'), 1, 1);
        const QString module = qtModule(header);
        const bool database = module == QStringLiteral("QtSql") || header == QStringLiteral("sqlite3.h");
        const bool inCore = house == QStringLiteral("core");
        const bool commandLine = house == QStringLiteral("app") && room != QStringLiteral("window")
            && path != QStringLiteral("app/main.cpp");

        if (header.startsWith(QStringLiteral("..")))
            return QStringLiteral("includes %1: name it from the project's root").arg(header);
        if (database && house != QStringLiteral("tests") && !(inCore && room == QStringLiteral("store")))
            return QStringLiteral("includes %1: the database belongs to core/store alone").arg(header);
        if (inCore || commandLine) {
            const bool paper = inCore && room == QStringLiteral("report");
            const bool picture = (inCore && room == QStringLiteral("density") && module == QStringLiteral("QtGui"))
                || (paper && (module == QStringLiteral("QtGui") || module == QStringLiteral("QtSvg")));
            if (!module.isEmpty() && !plainModules.contains(module) && !database && !picture)
                return QStringLiteral("includes %1 of %2: there is no window here").arg(header, module);
            if (intoHouse == QStringLiteral("ui") || header.startsWith(QStringLiteral("app/window/")))
                return QStringLiteral("includes %1: there is no window here").arg(header);
        }
        if ((inCore || house == QStringLiteral("ui")) && intoHouse == QStringLiteral("app"))
            return QStringLiteral("includes %1: the program stands above the rooms it is made of").arg(header);
        if (inCore && intoHouse == QStringLiteral("core") && intoRoom != room) {
            if (!coreRooms().contains(room))
                return QStringLiteral("stands in a room that the table of rooms does not know: %1").arg(room);
            if (!coreRooms().value(room).contains(intoRoom))
                return QStringLiteral("includes %1: core/%2 may not lean on core/%3").arg(header, room, intoRoom);
        }
        return {};
    }

    // What belongs to one room alone: statements to core/store, the context of a room's texts to its words.h.
    [[nodiscard]] static QString roomRule(const QString& path, const QString& line)
    {
        static const QRegularExpression ours(QStringLiteral("^(core|ui|app)/"));
        static const QRegularExpression statement(
            QStringLiteral("\"\\s*(SELECT|INSERT INTO|UPDATE|DELETE FROM|PRAGMA|CREATE TABLE|ALTER TABLE)\\s"));
        static const QRegularExpression helper(
            QStringLiteral("^(static |inline )?QString (tr|say|translated)\\(const char\\s?\\*"));
        if (!ours.match(path).hasMatch())
            return {};
        if (!path.startsWith(QLatin1String("core/store/")) && statement.match(line).hasMatch())
            return QStringLiteral("holds a statement for the database: those stand in core/store alone");
        if (helper.match(line).hasMatch())
            return QStringLiteral("makes a translation helper of its own: use the Words of the room's words.h");
        return {};
    }

    // Words that have no place in the sources. One letter of each stands in brackets, or this file would break the
    // rule.
    [[nodiscard]] static QString wordRule(const QString& line)
    {
        static const QRegularExpression unfinished(QStringLiteral("\\b(TO[D]O|FIX[M]E|XX[X])\\b"));
        static const QRegularExpression machinePath(QStringLiteral("(?<![\\w.:/])/(hom[e]|roo[t]|tm[p]|wor[k])/"));
        if (const auto match = unfinished.match(line); match.hasMatch())
            return QStringLiteral("says %1: finish it, or write down the limit").arg(match.captured());
        if (const auto match = machinePath.match(line); match.hasMatch())
            return QStringLiteral("names a place on one machine: %1").arg(match.captured());
        return {};
    }

    QHash<QString, QString> m_moduleOf;
};

} // namespace washfast::house
