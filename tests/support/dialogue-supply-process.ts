// The scripted supply on standard input and output, for socat to put on a pseudo-terminal.
import { dialogueSupply } from './dialogue-supply.ts';

const supply = dialogueSupply();
supply.onBytes((bytes) => process.stdout.write(bytes));
process.stdin.on('data', (bytes) => supply.receive(bytes));
process.stdin.on('end', () => process.exit(0));
supply.boot();
