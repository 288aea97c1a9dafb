import { contextBridge, ipcRenderer } from 'electron';
import { RECORD_DRAWN, RECORD_TAKE, type RecordBridge } from '../../core/record/record-bridge.ts';

const bridge: RecordBridge = {
  take: () => ipcRenderer.invoke(RECORD_TAKE),
  drawn: (problem) => ipcRenderer.send(RECORD_DRAWN, problem),
};

contextBridge.exposeInMainWorld('wakelineRecord', bridge);
