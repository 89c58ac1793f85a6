// What all pictures are taken with: the window as it stands, the example notebook under a clock that stands still, and
// the parts of the picture book.
#pragma once

#include "app/demo/demo_notebook.h"
#include "app/window/wiring.h"
#include "tests/support/settable_clock.h"

#include <QApplication>
#include <QDir>
#include <QEventLoop>
#include <QTemporaryDir>
#include <QTimer>
#include <cstdio>

namespace washfast::pictures {

inline void settle(int ms = 150)
{
    QEventLoop loop;
    QTimer::singleShot(ms, &loop, &QEventLoop::quit);
    loop.exec();
}

/// As the names of the pictures end.
inline QString lookName(ui::ThemeMode mode)
{
    return mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark");
}

class Photographer {
public:
    Photographer(MainWindow& window, QString folder, QString look)
        : window_(window)
        , folder_(std::move(folder))
        , look_(std::move(look))
    {
    }
    void take(const QString& name) const
    {
        settle();
        const auto path = QDir(folder_).filePath(QStringLiteral("%1-%2.png").arg(name, look_));
        if (!window_.grab().save(path))
            std::fprintf(stderr, "not written: %s\n", qPrintable(path));
    }

private:
    MainWindow& window_;
    QString folder_;
    QString look_;
};

template <typename V> V* show(MainWindow& window, const QString& title)
{
    return qobject_cast<V*>(window.go(window.indexOf(title)));
}

/// The example notebook on a June morning; no desk where it could not be made.
struct Example {
    explicit Example(const Catalogue& catalogue)
        : clock(QDateTime(QDate(2026, 6, 16), QTime(8, 5), Qt::UTC))
    {
        auto file = store::NotebookFile::open(scratch.filePath(QStringLiteral("spring term.washfast")), catalogue);
        if (!file || !demo::writeDemo(**file))
            return;
        desk = std::make_unique<ui::Desk>(std::move(*file), clock);
        desk->waitUntilComplete();
    }

    QTemporaryDir scratch;
    test::SettableClock clock;
    ui::QtDialogs dialogs;
    std::unique_ptr<ui::Desk> desk;
};

// reading_pictures.cpp
void photographReading(const ui::Services& services, const QString& folder, const QString& look);
void photographReadingRows(const ui::Services& services, const QString& folder, const QString& look);
void photographRealPhoto(const ui::Services& services, const QString& folder, const QString& look);
// signs_pictures.cpp
void photographSigns(QApplication& application, const Catalogue& catalogue, const QString& folder);
// lesson_pictures.cpp
void photographRunningLesson(QApplication& application, const Catalogue& catalogue, const QString& folder);
// store_room_pictures.cpp
void photographMixing(MainWindow& window, const Photographer& photographer);
void photographShelf(MainWindow& window, ui::Desk& desk, const Photographer& photographer);
void photographShelfForms(const ui::Services& services, const QString& folder, const QString& look);
void photographLabels(const Notebook& notebook, const QString& folder);

} // namespace washfast::pictures
