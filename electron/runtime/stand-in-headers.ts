import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/**
 * The least that node-gyp wants to find of a Node installation, so that an addon which speaks
 * only Node-API builds where Node's own headers are neither installed nor downloadable.
 */
const COMMON_GYPI = `{
  'variables': {
    'visibility%': 'hidden',
    'library%': 'static_library',
    'build_v8_with_gn%': 'false',
    'openssl_fips%': '',
    'enable_lto%': 'false',
  },
  'target_defaults': {
    'default_configuration': 'Release',
    'configurations': { 'Debug': {}, 'Release': {} },
    'cflags': ['-fPIC', '-pthread'],
    'cflags_cc': ['-fno-rtti', '-fno-exceptions'],
    'ldflags': ['-pthread'],
  },
}
`;

/**
 * The registry's headers leave experimental functions out. Without this one, the addon's C++
 * wrapper runs its finalizers inside garbage collection, which this Node-API aborts on.
 */
const POST_FINALIZER = `
#define NODE_API_EXPERIMENTAL_HAS_POST_FINALIZER
NAPI_EXTERN napi_status NAPI_CDECL
node_api_post_finalizer(node_api_basic_env env,
                        napi_finalize finalize_cb,
                        void* finalize_data,
                        void* finalize_hint);
`;

/** Lays out headers from the registry's `node-api-headers` as a Node directory under `folder`. */
export function layStandInHeaders(folder: string): string {
  const include = path.join(folder, 'include', 'node');
  mkdirSync(include, { recursive: true });
  const modules = path.resolve(import.meta.dirname, '../../node_modules');
  cpSync(path.join(modules, 'node-api-headers', 'include'), include, { recursive: true });
  const api = path.join(include, 'js_native_api.h');
  const text = readFileSync(api, 'utf8');
  const end = text.lastIndexOf('EXTERN_C_END');
  writeFileSync(api, text.slice(0, end) + POST_FINALIZER + text.slice(end));
  writeFileSync(path.join(include, 'common.gypi'), COMMON_GYPI);
  writeFileSync(
    path.join(include, 'config.gypi'),
    "{'target_defaults': {}, 'variables': {'napi_build_version': '9'}}\n",
  );
  writeFileSync(path.join(include, 'node_version.h'), '#define NODE_MAJOR_VERSION 20\n');
  return folder;
}
