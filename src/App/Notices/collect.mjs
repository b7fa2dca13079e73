// What ships, with the licence of each: from the packages that the program was restored with, the page's modules and the
// runtime. Run by the build; writes one file that the program carries in itself.
//   node collect.mjs OUT ASSETS RUNTIME-VERSION RUNTIME-FOLDERS LOCK…
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

const [out, assets, runtimeVersion, runtimeFolders, ...locks] = process.argv.slice(2);
const own = import.meta.dirname;
const read = (file) => readFileSync(file, "utf8").replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n").trim();
const found = (folder, pattern) => readdirSync(folder).filter((name) => pattern.test(name)).sort().map((name) => join(folder, name));
const tag = (xml, name) => xml.match(new RegExp(`<${name}(?:\\s[^>]*)?>([^<]*)</${name}>`))?.[1].trim();
const plain = (xml) => xml?.replace(/&lt;/g, "<").replace(/&gt;/g, ">").replace(/&quot;/g, '"').replace(/&amp;/g, "&");

// A licence that a package only names is written out here; whose it is stands above it.
function standard(licence, holder) {
  const file = join(own, "texts", `${licence}.txt`);
  return licence && existsSync(file) ? `${holder}\n\n${read(file)}` : "";
}

function entry(name, version, licence, holder, folder) {
  const texts = found(folder, /^licen[cs]e(\.(txt|md))?$/i).map(read);
  if (texts.length === 0) texts.push(standard(licence, holder));
  texts.push(...found(folder, /^(notice|third-?party-?notices)(\.(txt|md))?$/i).map(read));
  return { name, version, licence, texts: texts.filter((text) => text.length > 0) };
}

function packages() {
  const { targets, packageFolders } = JSON.parse(read(assets));
  const shipped = new Set(Object.values(targets).flatMap((libraries) => Object.entries(libraries).filter(([, l]) => l.type === "package").map(([key]) => key)));
  return [...shipped].map((key) => {
    const [name, version] = key.split("/");
    const folder = Object.keys(packageFolders).map((root) => join(root, name.toLowerCase(), version.toLowerCase())).find(existsSync);
    const xml = read(found(folder, /\.nuspec$/i)[0]);
    const holder = plain(tag(xml, "copyright") || `Copyright ${tag(xml, "authors")}`);
    return entry(name, version, tag(xml, "license") ?? "", /copyright|©/i.test(holder) ? holder : `Copyright ${holder}`, folder);
  });
}

// Tools of the build ("dev") don't ship.
function modules(lock) {
  return Object.entries(JSON.parse(read(lock)).packages).filter(([path, m]) => path.startsWith("node_modules/") && !m.dev).map(([path, m]) => {
    const folder = join(dirname(lock), path);
    return entry(path.slice("node_modules/".length), m.version, /^see licen/i.test(m.license ?? "see licence") ? "its own" : m.license, `Copyright the authors of ${path.slice("node_modules/".length)}`, folder);
  });
}

function runtime() {
  const texts = runtimeFolders.split(";").filter((folder) => folder && existsSync(folder))
    .flatMap((folder) => [...found(folder, /^licen[cs]e(\.txt)?$/i), ...found(folder, /^third-?party-?notices(\.txt)?$/i)]).map(read);
  if (texts.length === 0) texts.push(standard("MIT", "Copyright (c) .NET Foundation and Contributors"));
  return { name: ".NET and ASP.NET Core", version: runtimeVersion, licence: "MIT", texts };
}

// What lies inside a package under a licence of its own.
const inside = JSON.parse(read(join(own, "inside.json"))).map(({ name, within, licence, text }) => ({ name, version: "", within, licence, texts: [read(join(own, "texts", text))] }));

const all = [runtime(), ...packages(), ...inside, ...locks.flatMap(modules)];
const once = [...new Map(all.map((one) => [`${one.name} ${one.version}`, one])).values()];
const texts = [...new Set(once.flatMap((one) => one.texts))];
once.sort((a, b) => (a.name.toLowerCase() < b.name.toLowerCase() ? -1 : 1));
writeFileSync(out, JSON.stringify({ parts: once.map((one) => ({ ...one, texts: one.texts.map((text) => texts.indexOf(text)) })), texts }));
