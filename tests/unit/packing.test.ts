import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { FuseV1Options, getCurrentFuseWire } from '@electron/fuses';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { FILE_ENDING } from '../../src-main/ipc/contract.ts';
import { BUNDLE_ENDING } from '../../src-main/store/bundle-format.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const text = (path: string): string => readFileSync(join(ROOT, path), 'utf8');
const { load } = createRequire(import.meta.url)('js-yaml') as { load: (yaml: string) => Configuration };

interface Configuration {
  readonly [key: string]: unknown;
  readonly fileAssociations: readonly { readonly ext: string }[];
  readonly nsis: Readonly<Record<string, unknown>>;
  readonly portable: Readonly<Record<string, unknown>>;
  readonly win: { readonly target: readonly string[]; readonly requestedExecutionLevel: string };
  readonly mac: { readonly target: readonly { readonly target: string; readonly arch: string }[] };
  readonly linux: { readonly target: readonly string[] };
}
const configuration = load(text('electron-builder.yml'));
const scratch = mkdtempSync(join(tmpdir(), 'packing-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

describe('what is asked of the packer', () => {
  test('programs for Windows, macOS and Linux', () => {
    expect(configuration.win.target).toEqual(['nsis', 'portable']);
    expect(configuration.mac.target).toEqual([{ target: 'dmg', arch: 'universal' }]);
    expect(configuration.linux.target).toEqual(['AppImage', 'deb']);
  });

  test('an installation for one user without an administrator, that leaves the attempts when it goes', () => {
    expect(configuration.nsis).toMatchObject({
      oneClick: true,
      perMachine: false,
      allowElevation: false,
      deleteAppDataOnUninstall: false,
    });
    expect(configuration.win.requestedExecutionLevel).toBe('asInvoker');
    expect(configuration.portable.requestExecutionLevel).toBe('user');
  });

  test('the files of ours that the program takes from the system, each of them', () => {
    expect(configuration.fileAssociations.map(({ ext }) => ext)).toEqual([FILE_ENDING, BUNDLE_ENDING]);
  });

  test('nothing is published and nothing updates itself', () => {
    expect(configuration.publish).toBeNull();
    const { dependencies, devDependencies } = JSON.parse(text('package.json'));
    expect(Object.keys({ ...dependencies, ...devDependencies })).not.toContain('electron-updater');
  });
});

describe("the program's icons", () => {
  const bytes = (path: string): Buffer => readFileSync(join(ROOT, 'build', path));

  test('are of the mark as it is now', () => {
    const [sum, path] = text('build/icon-source.sha256').trim().split('  ');
    expect(createHash('sha256').update(text(path!)).digest('hex'), 'run node bin/icons.js').toBe(sum);
  });

  test('hold every size, each drawn and not blank', () => {
    const sizes = readdirSync(join(ROOT, 'build/icons')).map((name) => Number.parseInt(name, 10));
    expect(sizes.sort((a, b) => a - b)).toEqual([16, 24, 32, 48, 64, 128, 256, 512, 1024]);
    for (const size of sizes) {
      const png = bytes(`icons/${size}x${size}.png`);
      expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([size, size]);
      expect(png.length).toBeGreaterThan(500);
    }
    const ico = bytes('icon.ico');
    const widths = Array.from({ length: ico.readUInt16LE(4) }, (_, k) => ico[6 + 16 * k] || 256);
    for (const width of [16, 32, 48, 256]) expect(widths).toContain(width);
    const icns = bytes('icon.icns');
    expect(icns.toString('latin1', 0, 4)).toBe('icns');
    expect(icns.readUInt32BE(4)).toBe(icns.length);
  });
});

/**
 * What electron-builder needs to find in an unpacked Electron, and no more. Its program is only the marked place in the
 * binary where the fuses are (github.com/electron/fuses), all of them on, as Electron ships most of them.
 */
function standInElectron(): string {
  const folder = join(scratch, 'electron');
  mkdirSync(join(folder, 'resources'), { recursive: true });
  const fuses = `dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX\x01\x09${'1'.repeat(9)}`;
  writeFileSync(join(folder, 'electron'), `\x7fELF${'\0'.repeat(500)}${fuses}${'\0'.repeat(500)}`, 'latin1');
  chmodSync(join(folder, 'electron'), 0o755);
  for (const name of ['LICENSE', 'LICENSES.chromium.html', 'version', 'chrome-sandbox']) {
    writeFileSync(join(folder, name), 'stand-in');
  }
  return folder;
}

function pack(env: NodeJS.ProcessEnv, args: readonly string[] = []) {
  const output = mkdtempSync(join(scratch, 'packed-'));
  const all = ['bin/pack.js', '--dir', `--config.directories.output=${output}`, ...args];
  const { status, stdout, stderr } = spawnSync(process.execPath, all, {
    cwd: ROOT,
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });
  return { status, said: stdout + stderr, output };
}

/** Every file in a packed archive with its size; the archive begins with its own list. */
function packedFiles(archive: string): ReadonlyMap<string, number> {
  interface Folder {
    readonly files: Readonly<Record<string, Folder & { readonly size?: number }>>;
  }
  const bytes = readFileSync(archive);
  const list = JSON.parse(bytes.toString('utf8', 16, 16 + bytes.readUInt32LE(12))) as Folder;
  const found = new Map<string, number>();
  const visit = (folder: Folder, at: string): void => {
    for (const [name, entry] of Object.entries(folder.files)) {
      if (entry.files !== undefined) visit(entry, `${at}${name}/`);
      else found.set(at + name, entry.size ?? 0);
    }
  };
  visit(list, '');
  return found;
}

describe.skipIf(process.platform !== 'linux')('packing (on Linux, over a stand-in for the binary of Electron)', () => {
  let packed: ReturnType<typeof pack>;
  const program = () => join(packed.output, 'linux-unpacked');

  beforeAll(() => {
    packed = pack({ RIMWARD_ELECTRON_DIST: standInElectron() });
  }, 300_000);

  test('makes the program', () => {
    expect(packed.status, packed.said).toBe(0);
    expect(readdirSync(program())).toContain('rimward');
  });

  test('puts in the three bundles and the page, and nothing else', () => {
    const files = packedFiles(join(program(), 'resources', 'app.asar'));
    const names = [...files.keys()];
    for (const name of [
      'package.json',
      'dist/electron/main.js',
      'dist/preload/preload.cjs',
      'dist/renderer/index.html',
    ]) {
      expect(names).toContain(name);
    }
    const strange = names.filter((name) => !/^(package\.json|dist\/(electron|preload|renderer)\/)/.test(name));
    expect(strange).toEqual([]);
    expect(names.filter((name) => /\.(map|ts|tsx|sqlite|log)$|node_modules|test/.test(name))).toEqual([]);
    // All of the page that is built is in it, or a worker would be missing.
    const built = readdirSync(join(ROOT, 'dist/renderer'), { recursive: true, withFileTypes: true });
    const page = built.filter((entry) => entry.isFile() && !entry.name.endsWith('.map'));
    expect(names.filter((name) => name.startsWith('dist/renderer/'))).toHaveLength(page.length);
  });

  test('stays within its budget of 12 MB for what is ours', () => {
    const files = packedFiles(join(program(), 'resources', 'app.asar'));
    const total_MB = [...files.values()].reduce((sum, size) => sum + size, 0) / 1e6;
    console.log(`packed: ${files.size} files, ${total_MB.toFixed(1)} MB`);
    expect(total_MB).toBeGreaterThan(1);
    expect(total_MB).toBeLessThan(12);
  });

  test('lays the licences of all parts and their bill of materials beside the program', () => {
    const notices = join(program(), 'resources', 'notices');
    const bill = JSON.parse(readFileSync(join(notices, 'sbom.cdx.json'), 'utf8'));
    const names = bill.components.map(({ name }: { name: string }) => name);
    const { dependencies } = JSON.parse(text('package.json'));
    expect(names).toEqual(expect.arrayContaining([...Object.keys(dependencies), 'electron']));
    const licences = readFileSync(join(notices, 'third-party-licences.txt'), 'utf8');
    for (const name of Object.keys(dependencies)) expect(licences).toContain(`\n${name} `);
    expect(licences).toContain('Permission is hereby granted, free of charge');
    expect(licences + JSON.stringify(bill)).not.toContain(ROOT);
  });

  test('burns the fuses: no plain Node, no debugger, only our archive, and that whole', async () => {
    const wire = await getCurrentFuseWire(join(program(), 'rimward'));
    // The characters 0 and 1.
    const [off, on] = [48, 49];
    expect(wire).toMatchObject({
      [FuseV1Options.RunAsNode]: off,
      [FuseV1Options.EnableNodeOptionsEnvironmentVariable]: off,
      [FuseV1Options.EnableNodeCliInspectArguments]: off,
      [FuseV1Options.EnableCookieEncryption]: on,
      [FuseV1Options.OnlyLoadAppFromAsar]: on,
      [FuseV1Options.EnableEmbeddedAsarIntegrityValidation]: on,
      [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: off,
      [FuseV1Options.GrantFileProtocolExtraPrivileges]: off,
    });
  });
});

describe('packing where Electron cannot be had', () => {
  test('names the archive, its checksum and where to put it', () => {
    const nowhere = join(scratch, 'empty-cache');
    const { status, said } = pack({
      ELECTRON_MIRROR: 'http://127.0.0.1:9/',
      electron_config_cache: nowhere,
      XDG_CACHE_HOME: nowhere,
      LOCALAPPDATA: nowhere,
    });
    expect(status, said).toBe(2);
    const { version } = JSON.parse(text('node_modules/electron/package.json'));
    const name = `electron-v${version}-${process.platform}-${process.arch}.zip`;
    expect(said).toContain(name);
    expect(said).toContain(JSON.parse(text('node_modules/electron/checksums.json'))[name]);
    expect(said).toContain('RIMWARD_ELECTRON_DIST=');
  }, 300_000);

  test('a folder that is not there, has nothing of it, or another archive is refused before anything is built', () => {
    const folder = join(scratch, 'archives');
    const asked = { RIMWARD_ELECTRON_DIST: folder };
    expect(pack(asked)).toMatchObject({ status: 2, said: expect.stringContaining('found no folder') });
    mkdirSync(folder);
    expect(pack(asked)).toMatchObject({ status: 2, said: expect.stringContaining('found neither') });
    const { version } = JSON.parse(text('node_modules/electron/package.json'));
    writeFileSync(join(folder, `electron-v${version}-win32-x64.zip`), 'no archive');
    const wrong = pack(asked, ['--win', '--x64']);
    expect(wrong).toMatchObject({ status: 2, said: expect.stringMatching(/found SHA-256 \w{64}, allowed: \w{64}/) });
    const both = pack(asked, ['--mac']).said;
    expect(both).toContain(`electron-v${version}-darwin-x64.zip: found nothing`);
    expect(both).toContain(`electron-v${version}-darwin-arm64.zip: found nothing`);
  });
});
