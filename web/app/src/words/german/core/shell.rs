//! German: what the shell says of the browser, its store and its files.

use crate::words::line::Line;

/// English, German.
pub(super) const LINES: &[Line] = lines! {
    "{} is {} MiB, far more than any record. Was it the right file?"
        => "{} hat {} MiB, weit mehr als jede Aufzeichnung. War es die richtige Datei?";
    "{} could not be read ({}). Copy it to this device first, then open it."
        => "{} war nicht lesbar ({}). Kopiere die Datei zuerst auf dieses Gerät, dann öffne sie.";
    "What was shared to Stillwood could not be fetched ({}). Save it, then open it here."
        => "Was mit Stillwood geteilt wurde, ließ sich nicht holen ({}). Sichere es als Datei, dann öffne es hier.";
    "Another website tried to hand a file to Stillwood. It was refused, and nothing was kept. If you wanted it, save the file, then open it here."
        => "Eine andere Website wollte Stillwood eine Datei geben. Sie wurde abgelehnt, nichts wurde gesichert. Wolltest du sie, sichere die Datei und öffne sie hier.";
    "Too much was shared to Stillwood at one time, and nothing of it was kept. Share fewer files, or save them and open them here."
        => "Es wurde zu viel auf einmal mit Stillwood geteilt, nichts davon wurde gesichert. Teile weniger Dateien, oder sichere sie und öffne sie hier.";
    "The file could not be made ({})." => "Die Datei ließ sich nicht erstellen ({}).";
    "The browser did not take the file for download ({})."
        => "Der Browser hat die Datei nicht heruntergeladen ({}).";
    "The picture could not be read ({}: {}). Type the mark."
        => "Das Bild war nicht lesbar ({}: {}). Tippe das Zeichen.";
    "This browser cannot print from here. Use its own menu."
        => "Dieser Browser kann von hier nicht drucken. Nimm das Menü des Browsers.";
    "This browser gives no random numbers, so Stillwood cannot name new entries here."
        => "Dieser Browser gibt keine Zufallszahlen, darum kann Stillwood hier keine neuen Einträge benennen.";
    "Stillwood could not be kept on this device for use without a network ({})."
        => "Stillwood ließ sich auf diesem Gerät nicht für den Betrieb ohne Netz sichern ({}).";
    "Stillwood could not look for a newer version ({}). Is there a network?"
        => "Stillwood konnte nicht nach einer neueren Version suchen ({}). Ist ein Netz da?";
    "The newer version did not take over ({}). Close every Stillwood window instead."
        => "Die neuere Version hat nicht übernommen ({}). Schließe stattdessen alle Fenster von Stillwood.";
    "There is no room left on this device, so this was not kept. Save the record as a file, make room, then try again."
        => "Auf diesem Gerät ist kein Platz mehr, darum wurde das nicht gesichert. Sichere die Aufzeichnung als Datei, schaffe Platz, dann versuche es noch einmal.";
    "This browser does not let Stillwood keep anything here ({}). A private window may be the reason. Whatever you enter now, save it as a file before you close the page."
        => "Dieser Browser lässt Stillwood hier nichts sichern ({}). Ein privates Fenster kann der Grund sein. Was du jetzt eingibst, sichere als Datei, bevor du die Seite schließt.";
    "A newer Stillwood has been at this record. Close every Stillwood window and open it again."
        => "Ein neueres Stillwood hat mit dieser Aufzeichnung gearbeitet. Schließe alle Fenster von Stillwood und öffne es wieder.";
    "The browser lost touch with the record ({}), so this was not kept. What was kept before is still there. Close Stillwood and open it again."
        => "Der Browser hat die Verbindung zur Aufzeichnung verloren ({}), darum wurde das nicht gesichert. Was vorher gesichert war, ist noch da. Schließe Stillwood und öffne es wieder.";
    "It was stopped, and nothing was written." => "Es wurde abgebrochen, und nichts wurde geschrieben.";
    "The store was emptied from outside, so this was not kept."
        => "Der Speicher wurde von außen geleert, darum wurde das nicht gesichert.";
    "Everything was deleted from another window. Load the page again to start empty."
        => "Alles wurde aus einem anderen Fenster gelöscht. Lade die Seite neu, um leer zu beginnen.";
    "The browser gave back something else than was written, so this was not kept."
        => "Der Browser gab etwas anderes zurück, als geschrieben wurde, darum wurde das nicht gesichert.";
    "This browser keeps nothing: save the record as a file before you leave."
        => "Dieser Browser behält nichts: Sichere die Aufzeichnung als Datei, bevor du gehst.";
    "The browser did not do as asked ({}: {}), so this was not kept."
        => "Der Browser hat den Auftrag nicht ausgeführt ({}: {}), darum wurde das nicht gesichert.";
    "The settings are not kept: {}" => "Die Einstellungen werden nicht gesichert: {}";
    "another window keeps changing them." => "ein anderes Fenster ändert sie immer wieder.";
    "There is no second copy: {}" => "Es gibt keine zweite Kopie: {}";
    "Not deleted: {}" => "Nicht gelöscht: {}";
    "Kept now, but there is no second copy: {}" => "Jetzt gesichert, aber es gibt keine zweite Kopie: {}";
    "This device keeps its sign: {}" => "Dieses Gerät behält sein Kürzel: {}";
    "The sample can't be read: {}: {}" => "Das Beispiel ist nicht lesbar: {}: {}";
    "What is kept elsewhere can't be read ({})." => "Was anderswo liegt, ist nicht lesbar ({}).";
    "Ready to work without a network." => "Bereit zur Arbeit ohne Netz.";
    "This device's storage was restored or copied from elsewhere: another device may go on under the same name. So this one takes a new name."
        => "Der Speicher dieses Geräts wurde wiederhergestellt oder von anderswo kopiert: Ein anderes Gerät macht vielleicht unter demselben Namen weiter. Darum nimmt dieses einen neuen Namen an.";
    "Another device writes under this one's name: its storage was copied or restored. So this one takes a new name."
        => "Ein anderes Gerät schreibt unter dem Namen dieses Geräts: Der Speicher wurde kopiert oder wiederhergestellt. Darum nimmt dieses einen neuen Namen an.";
    "{} It is {} from now on, and its marks begin with {}."
        => "{} Ab jetzt ist es {}, und seine Zeichen beginnen mit {}.";
    "Another device begins its marks with {} too. Marks of this one begin with {} from now on."
        => "Ein anderes Gerät beginnt seine Zeichen auch mit {}. Die Zeichen dieses Geräts beginnen ab jetzt mit {}.";
    "Kept now. Save the record as a file: a browser whose disk was full may throw away what it stored when it starts again."
        => "Jetzt gesichert. Sichere die Aufzeichnung als Datei: Ein Browser, dessen Speicher voll war, wirft beim nächsten Start vielleicht weg, was er hatte.";
    "Kept now, and once more beside it: a browser whose disk was full may throw away what it stored when it starts again. Save the record as a file."
        => "Jetzt gesichert, und daneben noch einmal: Ein Browser, dessen Speicher voll war, wirft beim nächsten Start vielleicht weg, was er hatte. Sichere die Aufzeichnung als Datei.";
    "What was begun in other windows can't be read: look whether the next mark is chalked already. {}"
        => "Was in anderen Fenstern begonnen wurde, ist nicht lesbar: Sieh nach, ob das nächste Zeichen schon angeschrieben ist. {}";
    "Not updated: what is half typed can't be kept ({})."
        => "Nicht aktualisiert: Halb Eingetipptes lässt sich nicht sichern ({}).";
    "The second copy of the record can't be read: {}" => "Die zweite Kopie der Aufzeichnung ist nicht lesbar: {}";
    "1 line of the second copy of the record can't be read. It is kept as it is."
        => "1 Zeile der zweiten Kopie der Aufzeichnung ist nicht lesbar. Die Kopie bleibt, wie sie ist.";
    "{} lines of the second copy of the record can't be read. It is kept as it is."
        => "{} Zeilen der zweiten Kopie der Aufzeichnung sind nicht lesbar. Die Kopie bleibt, wie sie ist.";
    "There is nothing to delete: this browser keeps nothing."
        => "Es gibt nichts zu löschen: Dieser Browser behält nichts.";
    "The store was emptied from outside and can't be written again yet: {}"
        => "Der Speicher wurde von außen geleert und lässt sich noch nicht wieder beschreiben: {}";
    "The settings are not kept: they could not be read at the start. Load the page again."
        => "Die Einstellungen werden nicht gesichert: Sie waren beim Start nicht lesbar. Lade die Seite neu.";
    "This browser does not keep which workshop is open: the sample can't be opened or closed here."
        => "Dieser Browser merkt sich nicht, welche Werkstatt offen ist: Das Beispiel lässt sich hier weder öffnen noch schließen.";
    "This device has no running numbers left, so nothing was written."
        => "Dieses Gerät hat keine laufenden Nummern mehr, darum wurde nichts geschrieben.";
    "there is nothing to write down." => "es gibt nichts aufzuschreiben.";
    "This device has no numbers left for entries." => "Dieses Gerät hat keine Nummern mehr für Einträge.";
};
