// Drives the real box for choosing a file, as a person does: waits until it shows the folder, then leaves it.
#pragma once

#include "ui/common/dialogs.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QFileDialog>
#include <QFileInfo>
#include <QFileSystemModel>
#include <QLineEdit>
#include <QTest>
#include <QTimer>
#include <functional>

namespace washfast::test {

/// Runs `show`, which opens a box, and `act` once the box shows `file` with its kind; after ten seconds the box is
/// closed. True when it was shown.
inline bool withFileBox(
    const QString& file, const std::function<void()>& show, const std::function<void(QFileDialog&)>& act)
{
    bool seen = false;
    QElapsedTimer since;
    since.start();
    QTimer watch;
    QObject::connect(&watch, &QTimer::timeout, [&] {
        auto* box = qobject_cast<QFileDialog*>(QApplication::activeModalWidget());
        if (!box)
            return;
        auto* folder = box->findChild<QFileSystemModel*>();
        const auto index = folder ? folder->index(file) : QModelIndex();
        seen = index.isValid() && !folder->type(index).isEmpty();
        if (!seen && since.elapsed() < 10'000)
            return;
        watch.stop();
        if (seen)
            act(*box);
        else
            box->reject();
    });
    watch.start(5);
    show();
    return seen;
}

inline void pressEscape(QFileDialog& box)
{
    QTest::keyClick(&box, Qt::Key_Escape);
}

/// File, Open notebook, and Escape.
inline bool escapeFromOpenBox(const QString& notebook)
{
    ui::QtDialogs dialogs;
    return withFileBox(
        notebook,
        [&] {
            (void)dialogs.openFile(nullptr, QStringLiteral("Open notebook"), QFileInfo(notebook).absolutePath(),
                { QStringLiteral("Notebooks (*.washfast)"), QStringLiteral("All files (*)") });
        },
        pressEscape);
}

} // namespace washfast::test
