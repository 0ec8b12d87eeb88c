/** Versions of the archive's layout, the newest last: it is the one written. All of them are checked. */
export const ARCHIVE_VERSIONS = ['1', '2'] as const;
export type ArchiveVersion = (typeof ARCHIVE_VERSIONS)[number];

/**
 * The text of data/readme.txt: how to check an archive with nothing of ours. It is part of the record, kept with it for as
 * long as it is kept, so it stands here with the format and not among the words of the screens. Verification compares it:
 * other words here need another archive version, and those of the versions before must stay as they were.
 */
export function archiveReadme(version: ArchiveVersion): string {
  const added =
    version === '1'
      ? { en: '', es: '' }
      : {
          en:
            "  data/sounds/            voice notes (WAV), byte for byte as recorded; the file's name is its SHA-256\n" +
            "  data/papers/            data sheets and signatures, byte for byte as added; the file's name is its SHA-256\n",
          es:
            '  data/sounds/              notas de voz (WAV), byte por byte como se grabaron; el nombre del archivo es su SHA-256\n' +
            '  data/papers/              fichas técnicas y firmas, byte por byte como se añadieron; el nombre del archivo es su SHA-256\n',
        };
  return `LAYERBOOK ARCHIVE, VERSION ${version}
(en español más abajo)

This folder is the log of one waterproofing job: what was done, photographed and measured before the tile went on.
It is a plain BagIt bag (RFC 8493). No program of ours is needed to read or check it.

  data/log/DEVICE.jsonl   what one phone wrote, one entry a line, oldest first (JSON, UTF-8)
  data/photos/            photographs, byte for byte as taken; the file's name is its SHA-256
${added.en}  data/records/           records (PDF) that were made from the log; the file's name is its SHA-256
  manifest-sha256.txt     the SHA-256 of every file under data
  bag-info.txt            job, day, number of bytes and files, last entry of each phone, files that were not at hand

1. ARE THE FILES AS THEY WERE?
Unpack the ZIP, open a terminal in the folder that holds manifest-sha256.txt, and run:

  Linux      sha256sum -c manifest-sha256.txt
  macOS      shasum -a 256 -c manifest-sha256.txt
  Windows    (PowerShell, one line)
             Get-Content manifest-sha256.txt | ForEach-Object { $h, $f = $_ -split '  ', 2; if ((Get-FileHash -Algorithm SHA256 $f).Hash -ne $h) { "CHANGED $f" } }
             One file alone:  certutil -hashfile data\\readme.txt SHA256

Each file must be OK (Windows: nothing is printed). Check tagmanifest-sha256.txt the same way.

2. IS NOTHING ADDED?
The line Payload-Oxum in bag-info.txt reads BYTES.FILES for everything under data. Count:

  Linux, macOS   find data -type f | wc -l
                 find data -type f -exec cat {} + | wc -c
  Windows        Get-ChildItem data -Recurse -File | Measure-Object Length -Sum

3. WERE THE ENTRIES WRITTEN AS THEY STAND?
Steps 1 and 2 find accidents. Whoever changes a file on purpose can change the manifest too; the entries themselves tell that.
In each line of data/log the text from the { after "body": up to the comma before "hash" is what was hashed: its SHA-256 is
the value of "hash". "prev" is the "hash" of the line before. "sig" is an Ed25519 signature (RFC 8032) over the 32 bytes of
that hash; the key stands in the first line of the file. So a changed, removed or inserted line shows. The hash of line 2, say:

  Linux, macOS   sed -n '2s/^{"body":\\(.*\\),"hash":"[0-9a-f]*","sig":.*$/\\1/p' data/log/DEVICE.jsonl | tr -d '\\n' | shasum -a 256

The last lines of a file can be cut off without a trace inside it. Compare the last entry with the Layerbook-Head lines of
bag-info.txt, and those with a copy handed over earlier or with the heads printed on a record.

Times are what the phone's clock said. A signature tells that the phone that introduced the key wrote the entry, not who held it.


ARCHIVO DE LAYERBOOK, VERSIÓN ${version}

Esta carpeta es la bitácora de una obra de impermeabilización: lo que se hizo, se fotografió y se midió antes de colocar la
cerámica. Es una bolsa BagIt común (RFC 8493). Para leerla o comprobarla no hace falta ningún programa nuestro.

  data/log/TELEFONO.jsonl   lo que anotó un teléfono, una anotación por renglón, la más antigua primero (JSON, UTF-8)
  data/photos/              fotos, byte por byte como se tomaron; el nombre del archivo es su SHA-256
${added.es}  data/records/             registros (PDF) hechos a partir de la bitácora; el nombre del archivo es su SHA-256
  manifest-sha256.txt       el SHA-256 de cada archivo dentro de data
  bag-info.txt              obra, día, cantidad de bytes y archivos, última anotación de cada teléfono, archivos que no estaban a mano

1. ¿ESTÁN LOS ARCHIVOS COMO ESTABAN?
Descomprima el ZIP, abra una terminal en la carpeta donde está manifest-sha256.txt y ejecute:

  Linux      sha256sum -c manifest-sha256.txt
  macOS      shasum -a 256 -c manifest-sha256.txt
  Windows    (PowerShell, en un solo renglón)
             Get-Content manifest-sha256.txt | ForEach-Object { $h, $f = $_ -split '  ', 2; if ((Get-FileHash -Algorithm SHA256 $f).Hash -ne $h) { "CAMBIADO $f" } }
             Un solo archivo:  certutil -hashfile data\\readme.txt SHA256

Cada archivo debe dar OK (en Windows no se imprime nada). Compruebe tagmanifest-sha256.txt de la misma manera.

2. ¿NO SE AGREGÓ NADA?
El renglón Payload-Oxum de bag-info.txt dice BYTES.ARCHIVOS de todo lo que hay dentro de data. Cuente:

  Linux, macOS   find data -type f | wc -l
                 find data -type f -exec cat {} + | wc -c
  Windows        Get-ChildItem data -Recurse -File | Measure-Object Length -Sum

3. ¿SE ESCRIBIERON LAS ANOTACIONES TAL COMO ESTÁN?
Los pasos 1 y 2 encuentran accidentes. Quien cambia un archivo a propósito puede cambiar también el manifiesto; eso lo dicen
las anotaciones mismas. En cada renglón de data/log, el texto desde la { que sigue a "body": hasta la coma antes de "hash" es
lo que se resumió: su SHA-256 es el valor de "hash". "prev" es el "hash" del renglón anterior. "sig" es una firma Ed25519
(RFC 8032) sobre los 32 bytes de ese resumen; la clave está en el primer renglón del archivo. Así se nota un renglón
cambiado, quitado o intercalado. El resumen del renglón 2, por ejemplo:

  Linux, macOS   sed -n '2s/^{"body":\\(.*\\),"hash":"[0-9a-f]*","sig":.*$/\\1/p' data/log/TELEFONO.jsonl | tr -d '\\n' | shasum -a 256

Los últimos renglones de un archivo se pueden cortar sin que quede rastro en él. Compare la última anotación con los renglones
Layerbook-Head de bag-info.txt, y estos con una copia entregada antes o con los que figuran en un registro impreso.

Las horas son las que decía el reloj del teléfono. Una firma dice que la anotación la escribió el teléfono que presentó la
clave, no quién lo tenía en la mano.
`;
}
